// A few words that go onto the plan.

import { addNote } from "../plan/ground_edits.js";
import { pointTool } from "./point_tool.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const place = (at) => {
    const ids = tryEdit(context, "Write a note", (doc) => addNote(doc, at, "Note"));
    if (ids) context.editField("text");
    return ids;
  };
  return pointTool(context, { name: "note", label: "Note", key: "N", group: "Ground", help: "Click a place and write; Escape leads back to the plan.", place });
}
