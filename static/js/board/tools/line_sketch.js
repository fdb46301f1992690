// What is shown of a line while it is drawn: the line, its points, the guide, the running length.

import { lengthWords } from "../map/site_units.js";
import { bearingDeg, distance } from "../plan/geometry.js";
import { snapWord } from "./snap_here.js";

const measured = (from, to, units) => `${lengthWords(distance(from, to), units, 2)} @ ${Math.round(bearingDeg(from, to))}°`;

/** The sketch of `line` ({points, here, bearing_deg}) for board.sketch.show. */
export function lineSketch(line, { closed }, { data, cross }) {
  const set = line.points.map((point) => point.at);
  const here = line.here?.at ?? (cross.byKeys ? cross.at : null);
  const all = here ? [...set, here] : set;
  const items = [];
  if (line.here?.guide) items.push({ points: line.here.guide, kind: "guide", text: "" });
  if (closed && all.length > 2) items.push({ points: all, kind: "ring" });
  if (all.length > 1) items.push({ points: all, kind: "line" });
  if (set.length && here && distance(set.at(-1), here) > 0.005) {
    items.push({ points: [set.at(-1), here], kind: "line", text: measured(set.at(-1), here, data.site.units) });
  }
  items.push(...set.map((point) => ({ points: [point], kind: "dot" })));
  if (here) items.push({ points: [here], kind: "dot", text: line.here ? snapWord(line.here) : "" });
  return items;
}
