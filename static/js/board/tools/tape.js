// Measures on the plan; nothing is kept.

import { lengthWords } from "../map/site_units.js";
import { bearingDeg, distance, pathLength, ringArea } from "../plan/geometry.js";
import { lineTool } from "./line_tool.js";

function words(points, units) {
  const said = [lengthWords(pathLength(points), units, 2)];
  if (points.length === 2) said.push(`bearing ${bearingDeg(points[0], points[1]).toFixed(1)}°`);
  if (points.length > 2) {
    const [before, corner, after] = points.slice(-3);
    const turn = Math.abs(bearingDeg(corner, before) - bearingDeg(corner, after));
    said.push(`angle at the last corner ${Math.min(turn, 360 - turn).toFixed(1)}°`);
    said.push(`straight ${lengthWords(distance(points[0], points.at(-1)), units, 2)}`);
    if (units !== "us") said.push(`closed ${ringArea(points).toFixed(1)} m²`);
  }
  return `${said.join(", ")}.`;
}

export const createTool = (context) => lineTool(context, {
  name: "tape", label: "Measure", key: "T", group: "Ways", least: 2,
  help: "Click from point to point, Enter to read the sum. Nothing is drawn.",
  finish: (points) => context.say(words(points.map((point) => point.at), context.data.site.units)),
});
