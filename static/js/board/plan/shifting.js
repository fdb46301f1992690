// Moving, turning and copying are one: a function from place to place, applied to some entities.

import { tidyDeg, placed } from "./points.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {(point: XY) => XY} Move */

/**
 * An entity with all its own points moved; `turn_deg` turns the arc of a head.
 * @param {object} entity @param {Move} move @param {number} [turn_deg] @returns {object}
 */
export function relocated(entity, move, turn_deg = 0) {
  const to = (point) => placed(move(point));
  const after = { ...entity };
  if (entity.at) after.at = to(entity.at);
  for (const field of ["outline", "path", "via"]) if (entity[field]) after[field] = entity[field].map(to);
  if (entity.holes) after.holes = entity.holes.map((hole) => hole.map(to));
  if (entity.kind === "head" && turn_deg) after.from_deg = tidyDeg((entity.from_deg ?? 0) + turn_deg);
  return after;
}
