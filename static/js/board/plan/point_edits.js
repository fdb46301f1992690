// Single points: corners of outlines, bends of lines, places.

import { tidied, withReplaced } from "./groups.js";
import { mustFind } from "./lookup.js";
import { setSupply } from "./nodes.js";
import { placed, samePlace } from "./points.js";
import { EditRefused } from "./refused.js";
import { removeAll } from "./removing.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {import("./lookup.js").Handle} Handle */
/** @typedef {{doc: object, ids: string[], notes?: string[]}} Edited */

const LIST = { outline: "outline", path: "path", via: "via" };
const LEAST = { outline: 3, hole: 3, path: 2, via: 0 };

/** @param {object} doc @param {Handle} handle @param {XY} to @returns {Edited} */
export function movePoint(doc, handle, to) {
  const { group, entity } = mustFind(doc, handle.id);
  const at = placed(to);
  if (handle.place === "at") {
    if (entity.at && samePlace(entity.at, at, 0)) return { doc, ids: [handle.id] };
    if (group === "supply" || entity.kind === "supply") return setSupply(doc, at);
    return { doc: withReplaced(doc, group, entity, { ...entity, at }), ids: [handle.id] };
  }
  const points = pointsAt(entity, handle);
  if (!points[handle.index]) throw new EditRefused("This point is no longer there.");
  if (samePlace(points[handle.index], at, 0)) return { doc, ids: [handle.id] };
  return withPoints(doc, handle, points.with(handle.index, at));
}

/**
 * A new point; it becomes number `index` of its outline, hole, path or via.
 * @param {object} doc @param {string} id @param {"outline"|"hole"|"path"|"via"} place @param {number} ring number of the hole
 * @param {number} index @param {XY} at @returns {Edited}
 */
export function insertPoint(doc, id, place, ring, index, at) {
  const { entity } = mustFind(doc, id);
  const points = pointsAt(entity, { place, ring });
  const lowest = place === "path" ? 1 : 0;
  const highest = place === "path" ? points.length - 1 : points.length;
  if (!(index >= lowest && index <= highest)) throw new EditRefused("There is no place for a point here.");
  return withPoints(doc, { id, place, ring }, points.toSpliced(index, 0, placed(at)));
}

/**
 * @param {object} doc @param {Handle} handle @returns {Edited} a hole of three corners goes as a whole, an outline or line is kept
 */
export function removePoint(doc, handle) {
  if (handle.place === "at") return removeAll(doc, [handle.id]);
  const { entity } = mustFind(doc, handle.id);
  const points = pointsAt(entity, handle);
  if (!points[handle.index]) throw new EditRefused("This point is no longer there.");
  const left = points.toSpliced(handle.index, 1);
  if (left.length >= LEAST[handle.place]) return withPoints(doc, handle, left);
  if (handle.place === "hole") return withPoints(doc, handle, null);
  const [count, what] = handle.place === "outline" ? ["three", "outline"] : ["two", "line"];
  throw new EditRefused(`The ${what} needs its ${count} points; remove the whole of ${handle.id} instead.`);
}

function pointsAt(entity, { place, ring }) {
  const straight = place === "via" && entity.from !== undefined ? [] : null;
  const points = place === "hole" ? entity.holes?.[ring] : (entity[LIST[place]] ?? straight);
  if (!points) throw new EditRefused("This point is no longer there.");
  return points;
}

function withPoints(doc, { id, place, ring }, points) {
  const { group, entity } = mustFind(doc, id);
  if (place !== "hole") return { doc: withReplaced(doc, group, entity, tidied({ ...entity, [place]: points })), ids: [id] };
  const holes = points ? entity.holes.with(ring, points) : entity.holes.toSpliced(ring, 1);
  return { doc: withReplaced(doc, group, entity, tidied({ ...entity, holes })), ids: [id] };
}
