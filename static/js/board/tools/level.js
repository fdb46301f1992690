// A height of the ground, typed once its place is set.

import { addLevel } from "../plan/ground_edits.js";
import { pointTool } from "./point_tool.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const place = (at) => {
    const ids = tryEdit(context, "Set a level", (doc) => addLevel(doc, at, 0));
    if (ids) context.editField("z_m");
    return ids;
  };
  return pointTool(context, { name: "level", label: "Level", key: "Z", group: "Ground", help: "Click a place, type its height, Enter.", place });
}
