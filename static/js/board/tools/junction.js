// A bare joint, set by hand where none comes by itself.

import { addNode } from "../plan/network_edits.js";
import { pipeUnder } from "./device_tool.js";
import { pointTool } from "./point_tool.js";
import { tryEdit } from "./try_edit.js";

export const createTool = (context) => pointTool(context, {
  name: "junction", label: "Junction", key: "J", group: "Water",
  help: "Click a pipe to put a junction in it. Pipes that end on a pipe make theirs by themselves.",
  place: (at, found) => tryEdit(context, "Place a junction", (doc) => addNode(doc, { kind: "junction", at }, { on: pipeUnder(found) }), { group: "first" }),
});
