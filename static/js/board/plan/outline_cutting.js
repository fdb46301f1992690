// Cutting an area or a surface in two along a line.

import { areaFor } from "./watered_area.js";
import { tidied, withReplaced, mapGroup } from "./groups.js";
import { freshId, mustFind } from "./lookup.js";
import { PREFIX } from "./entities.js";
import { between, pathLength, segmentsMeet, withoutRepeats } from "./paths.js";
import { bearingDeg, middle, placed, pointAt, samePlace } from "./points.js";
import { EditRefused } from "./refused.js";
import { distanceToRing, insideRing, placeInside, ringArea, ringSides, tidyRing } from "./rings.js";

/** @typedef {import("./points.js").XY} XY */

const NEAR_M = 0.02; // an end this near to the outline was meant to be on it
const LEAST_PART_M2 = 0.05;

/**
 * Cuts an area or a surface along a line that crosses it once. The larger part keeps the id.
 * @param {object} doc @param {string} id @param {XY[]} line
 * @returns {{doc: object, ids: [string, string]}} refused where the line does not cross, or runs through a hole
 */
export function splitOutline(doc, id, line) {
  const { group, entity } = mustFind(doc, id, "areas", "surfaces");
  const cut = cutThrough(entity.outline, withoutRepeats(line));
  const parts = partsOf(entity.outline, cut).sort((a, b) => ringArea(b) - ringArea(a));
  if (parts.some((part) => part.length < 3 || ringArea(part) < LEAST_PART_M2)) {
    throw new EditRefused("One part would be next to nothing; draw the line farther inside.");
  }
  const holes = entity.holes ?? [];
  if (holes.some((hole) => runsThrough(cut.path, hole))) {
    throw new EditRefused("The line runs through a hole; draw it past the hole.");
  }
  const newId = freshId(doc, PREFIX[group]);
  const inside = (ring) => holes.filter((hole) => insideRing(placeInside(hole), ring));
  const made = parts.map((outline, i) => ({ ...entity, id: i ? newId : id, outline, holes: inside(outline) }));
  const next = withReplaced(doc, group, entity, ...made.map(tidied));
  return { doc: group === "areas" ? headsFollow(next, id, newId) : next, ids: [id, newId] };
}

/** The piece of the line inside the ring, with where its ends lie on the ring. */
function cutThrough(ring, line) {
  const meetings = meetingsOf(ring, reaching(ring, line));
  const pieces = [];
  for (let i = 1; i < meetings.length; i += 1) {
    const path = pieceBetween(meetings[i - 1], meetings[i]);
    if (insideRing(wellInside(path), ring)) pieces.push({ path, from: meetings[i - 1], to: meetings[i] });
  }
  if (pieces.length === 0) throw new EditRefused("This line does not cross the outline; draw it from edge to edge.");
  if (pieces.length > 1) throw new EditRefused("This line crosses the outline more than twice; cut one part after the other.");
  return pieces[0];
}

// Ends that were set on the outline fall short of it, or beyond, by rounding.
function reaching(ring, line) {
  if (line.length < 2) throw new EditRefused("A cut needs two different points.");
  const path = [...line];
  if (distanceToRing(path[0], ring) <= NEAR_M) path[0] = longer(path[1], path[0]);
  if (distanceToRing(path.at(-1), ring) <= NEAR_M) path[path.length - 1] = longer(path.at(-2), path.at(-1));
  return path;
}

function longer(from, to) {
  return pointAt(to, bearingDeg(from, to), 2 * NEAR_M);
}

/** Where the line meets the ring, in the order of the line; a corner counts once. */
function meetingsOf(ring, line) {
  const found = [];
  for (let i = 1; i < line.length; i += 1) {
    ringSides(ring).forEach(([a, b], side) => {
      const met = segmentsMeet(line[i - 1], line[i], a, b);
      if (met) found.push({ at: met.at, onLine: i - 1 + met.first, onRing: side + met.second, line });
    });
  }
  found.sort((one, other) => one.onLine - other.onLine);
  return found.filter((one, i) => i === 0 || !samePlace(one.at, found[i - 1].at, 1e-6));
}

function pieceBetween(from, to) {
  const bends = from.line.filter((_, i) => i > from.onLine && i < to.onLine);
  return [from.at, ...bends, to.at];
}

function wellInside(path) {
  const half_m = pathLength(path) / 2;
  let walked_m = 0;
  for (let i = 1; i < path.length; i += 1) {
    const length_m = pathLength([path[i - 1], path[i]]);
    if (walked_m + length_m >= half_m && length_m > 0) return between(path[i - 1], path[i], (half_m - walked_m) / length_m);
    walked_m += length_m;
  }
  return middle(path[0], path.at(-1));
}

function partsOf(ring, { path, from, to }) {
  const back = [...path].reverse();
  const one = [...cornersBetween(ring, from.onRing, to.onRing), ...back];
  const other = [...cornersBetween(ring, to.onRing, from.onRing), ...path];
  return [one, other].map((part) => tidyRing(part.map(placed)));
}

/** Corners of the ring after one place on it and before another, going forward. */
function cornersBetween(ring, from, to) {
  const end = to < from ? to + ring.length : to;
  const corners = [];
  for (let i = Math.floor(from) + 1; i < end; i += 1) corners.push(ring[i % ring.length]);
  return corners;
}

function runsThrough(path, hole) {
  if (path.some((point) => insideRing(point, hole))) return true;
  const legs = path.slice(1).map((point, i) => [path[i], point]);
  return legs.some(([a, b]) => ringSides(hole).some(([c, d]) => segmentsMeet(a, b, c, d)));
}

function headsFollow(doc, id, newId) {
  return mapGroup(doc, "nodes", (node) => {
    if (node.area !== id) return node;
    const area = areaFor(doc, node.at, [id, newId]);
    return area === newId ? { ...node, area } : node;
  });
}
