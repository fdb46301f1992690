// Where a pointer or the keyboard's cross really points, after snapping.

import { distance, linesMeet, onGrid } from "../plan/geometry.js";
import { snap } from "../plan/snapping.js";

const POINTER_PX = 12;
const FINGER_PX = 24;
const CROSS_M = 0.06; // the cross moves by 0.10 m, so it catches what lies between two steps
const CENTIMETRES = 100;

const toCentimetre = (point) => onGrid(point.map((part) => Math.round(part * CENTIMETRES) / CENTIMETRES));

/**
 * {at, what, id, guide}: snapped unless Shift is held; free places fall on whole centimetres.
 * `from` is the last point, `previous` the one before it, `opening` the first two points of an outline that can close.
 */
export function snapHere({ store, board, data }, event, { from = null, previous = null, opening = null, avoid = [] } = {}) {
  if (event.shift) return { at: toCentimetre(event.at), what: null, id: null, guide: null };
  const radius_m = event.cross ? CROSS_M : (event.touch ? FINGER_PX : POINTER_PX) * board.metresPerPixel();
  if (opening && distance(event.at, opening[0]) <= radius_m) return { at: opening[0], what: "first", id: null, guide: null };
  const found = snap(store.document, event.at, { radius_m, from, previous, avoid });
  const closing = opening && [null, "square"].includes(found.what) ? fourthCorner(event.at, { from, previous, opening, radius_m }) : null;
  if (closing) return closing;
  const measured = ["node", "end"].includes(found.what) ? null : weakNear(data, event.at, radius_m);
  if (measured) return measured;
  if (found.what) return found;
  const free = { ...found, at: toCentimetre(event.at) };
  return from && !previous && !event.cross ? onAxis(free, from, radius_m) : free;
}

// A measured point is a place to draw from, unsure or not; once something is drawn there, that comes first.
function weakNear({ weak_points: points = [] }, at, radius_m) {
  const near = points.filter((point) => distance(point.at, at) <= radius_m);
  const [nearest] = near.sort((one, other) => distance(one.at, at) - distance(other.at, at));
  return nearest ? { at: onGrid(nearest.at), what: "measured", id: null, guide: null } : null;
}

// Where a leg square to the last one meets the line square to the first: there a rectangle closes.
function fourthCorner(at, { from, previous, opening: [first, second], radius_m }) {
  const square = ([x1, y1], [x2, y2]) => [x1 - (y2 - y1), y1 + (x2 - x1)];
  const met = linesMeet(from, square(from, previous), first, square(first, second));
  if (!met || distance(met.at, at) > radius_m) return null;
  return { at: onGrid(met.at), what: "square", id: null, guide: [first, onGrid(met.at)] };
}

// The first leg has nothing to stand square to but the plan's own east and north.
function onAxis(free, from, radius_m) {
  const axis = [0, 1].find((one) => Math.abs(free.at[one] - from[one]) <= radius_m / 2);
  if (axis === undefined || distance(free.at, from) <= radius_m) return free;
  const at = free.at.with(axis, from[axis]);
  return { ...free, at, what: "square", guide: [from, at] };
}

const WORDS = { node: "on", end: "end", edge: "edge", crossing: "crossing", square: "square", level: "level", pipe: "pipe", first: "close", measured: "unsure point" };

/** A word for what was snapped to, for the guide. */
export const snapWord = (found) => WORDS[found.what] ?? "";
