// A duct under paving, for pipes and cables to pass.

import { addSleeve } from "../plan/network_edits.js";
import { lineTool } from "./line_tool.js";
import { partOption } from "./part_option.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const part = partOption(context, "sleeve");
  return lineTool(context, {
    name: "sleeve", label: "Sleeve", key: "D", group: "Ways", least: 2,
    help: "Click where the sleeve begins and where it ends, then Enter.",
    options: part.options,
    finish: (points) => tryEdit(context, "Draw a sleeve", (doc) => addSleeve(doc, points.map((point) => point.at), part.props())) !== null,
  });
}
