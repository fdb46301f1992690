// Gas, electricity, water, drains: what lies buried. Its depth is typed beside it once it is drawn.

import { addService } from "../plan/ground_edits.js";
import { lineTool } from "./line_tool.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const { choices, data } = context;
  const kinds = data.choices.service;
  const kind = () => choices.get("service", kinds.map(([code]) => code), "electric");
  return lineTool(context, {
    name: "service", label: "Buried line", key: "B", group: "Ground", least: 2,
    help: "Click along the buried line, Enter at its end; then say how deep. What is drawn is no proof: have lines located before digging.",
    options: () => [{ name: "service", label: "Carries", options: kinds, value: kind(), change: (code) => choices.set("service", code) }],
    finish: (points) => tryEdit(context, "Draw a buried line", (doc) => addService(doc, points.map((point) => point.at), { kind: kind() })) !== null,
  });
}
