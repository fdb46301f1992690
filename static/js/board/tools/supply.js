// Where the water comes from: the one point of connection.

import { setSupply } from "../plan/network_edits.js";
import { pointTool } from "./point_tool.js";
import { tryEdit } from "./try_edit.js";

export const createTool = (context) => pointTool(context, {
  name: "supply", label: "Supply", key: "W", group: "Water",
  help: "Click where the water is taken. The work on drinking water is a licensed plumber's, by local code.",
  place: (at) => tryEdit(context, "Place the supply", (doc) => setSupply(doc, at)),
});
