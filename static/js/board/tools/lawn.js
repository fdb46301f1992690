// Lawns, beds and all else that is watered.

import { addArea } from "../plan/ground_edits.js";
import { lineTool } from "./line_tool.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const { choices, data } = context;
  const covers = data.choices.cover;
  const cover = () => choices.get("cover", covers.map(([code]) => code), "turf");
  return lineTool(context, {
    name: "lawn", label: "Lawn, bed", key: "L", group: "Ground", closed: true, least: 3, boxes: true,
    help: "Click the corners, or type 24 x 12 and Enter. Enter or Done closes the outline.",
    options: () => [{ name: "cover", label: "Grows", options: covers, value: cover(), change: (code) => choices.set("cover", code) }],
    finish: (points) => tryEdit(context, "Draw an area", (doc) => addArea(doc, points.map((point) => point.at), { cover: cover() })) !== null,
  });
}
