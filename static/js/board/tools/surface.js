// Houses, paving, water, trees: what is not watered and may be in the way.

import { addSurface } from "../plan/ground_edits.js";
import { lineTool } from "./line_tool.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const { choices, data } = context;
  const kinds = data.choices.surface;
  const kind = () => choices.get("surface", kinds.map(([code]) => code), "building");
  return lineTool(context, {
    name: "surface", label: "Surface", key: "U", group: "Ground", closed: true, least: 3, boxes: true,
    help: "Click the corners, or type 16 x 8 from the first one. Enter or Done closes the outline.",
    options: () => [{ name: "surface", label: "Kind", options: kinds, value: kind(), change: (code) => choices.set("surface", code) }],
    finish: (points) => tryEdit(context, "Draw a surface", (doc) => addSurface(doc, points.map((point) => point.at), { kind: kind() })) !== null,
  });
}
