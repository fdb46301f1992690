// What can be taken hold of on the one selected entity: corners, middles of edges for a new corner, ends of an arc.

import { arcHandles } from "../plan/arcs.js";
import { middle, pointOnSegment, ringSides } from "../plan/geometry.js";
import { find, handlesOf, pathOf, ringsOf } from "../plan/lookup.js";

const SHORTEST_PX = 36; // a middle handle on a shorter edge would lie under its corners

/** The handles of an entity; `parts` are the page's, `metresPerPixel` leaves out middles that would be crowded. */
export function grips(doc, id, { parts = {}, metresPerPixel = 0 } = {}) {
  const found = find(doc, id);
  if (!found) return [];
  const roomy = ([start, end]) => Math.hypot(end[0] - start[0], end[1] - start[1]) >= SHORTEST_PX * metresPerPixel;
  return [...arcGrips(found.entity, parts), ...handlesOf(doc, id), ...middles(doc, found, roomy)];
}

// A middle's index is that of the corner before it; a new corner comes after that one.
function middles(doc, { entity }, roomy) {
  const between = (place, sides, ring) => sides.map((side, index) => ({ side, grip: { id: entity.id, place, ring, index, at: middle(...side), side, insert: true } }));
  const path = entity.outline ? null : pathOf(doc, entity.id);
  const sides = entity.outline
    ? ringsOf(doc, entity.id).flatMap((ring, index) => between(index ? "hole" : "outline", ringSides(ring), Math.max(0, index - 1)))
    : path ? between(entity.path ? "path" : "via", path.slice(1).map((end, index) => [path[index], end]), 0) : [];
  return sides.filter(({ side }) => roomy(side)).map(({ grip }) => grip);
}

function arcGrips(entity, parts) {
  if (entity.kind !== "head") return [];
  const part = (parts.head ?? []).find((one) => one.code === entity.part);
  const reach_m = entity.reach_m ?? part?.reach_m;
  if (!reach_m || part?.arc === "drip" || part?.arc === "by_bearing") return [];
  const ends = arcHandles(entity, reach_m);
  const wanted = part?.arc === "full" ? ["reach"] : ["from", "to", "reach"];
  return wanted.filter((which) => ends[which]).map((which) => ({ id: entity.id, place: "arc", which, at: ends[which] }));
}

/** Whether a corner can be taken out there. */
export const isCorner = (grip) => Boolean(grip) && !grip.insert && ["outline", "hole", "path", "via"].includes(grip.place);

/** The edge nearest to a place, as a grip that puts a corner there; null for what has no edges. */
export function edgeAt(doc, id, at) {
  const edges = grips(doc, id).filter((grip) => grip.insert).map((grip) => ({ grip, foot: pointOnSegment(at, ...grip.side) }));
  const [nearest] = edges.sort((one, other) => one.foot.distance_m - other.foot.distance_m);
  return nearest ? { ...nearest.grip, at: nearest.foot.at } : null;
}
