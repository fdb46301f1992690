// A fixed point on the ground that tapes are pulled from.

import { addMark } from "../plan/ground_edits.js";
import { pointTool } from "./point_tool.js";
import { tryEdit } from "./try_edit.js";

export const createTool = (context) => pointTool(context, {
  name: "mark", label: "Mark", key: "M", group: "Ground",
  help: "Click a fixed point that can be found again on site: a corner of the house, a gate post.",
  place: (at) => tryEdit(context, "Set a mark", (doc) => addMark(doc, at, {})),
});
