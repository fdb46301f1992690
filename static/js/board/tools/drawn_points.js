// The points of a line being drawn, and where typed figures lead from them. Pure.

import { bearingDeg, onGrid, pointAt, roundMm, samePlace } from "../plan/geometry.js";

const SAME_M = 0.005;

/** The four corners, the first one given, turning left. */
export function boxFrom([x, y], width_m, height_m) {
  const [right, top] = [roundMm(x + width_m), roundMm(y + height_m)];
  return [[x, y], [right, y], [right, top], [x, top]];
}

/**
 * Where typed figures lead: {points} to set, {bearing_deg} to keep to, or {refused}.
 * `from` is the last point or null, `towards` where the guide points, `start` the corner of a rectangle.
 */
export function pointsTyped(figures, { from, towards = null, start = [0, 0], bearing_deg = null }) {
  if (figures.kind === "place") return { points: [onGrid([figures.east_m, figures.north_m])] };
  if (figures.kind === "box") return { points: boxFrom(from ?? start, figures.width_m, figures.height_m), box: true };
  if (figures.kind === "bearing") return { bearing_deg: figures.bearing_deg, points: [] };
  if (!from) return { refused: 'Set a first point: click, press Enter, or type a place such as "0; 0".' };
  if (figures.kind === "step") return { points: [onGrid([from[0] + figures.east_m, from[1] + figures.north_m])] };
  if (figures.kind === "polar") return { points: [onGrid(pointAt(from, figures.bearing_deg, figures.length_m))] };
  const bearing = bearing_deg ?? (towards && !samePlace(from, towards, SAME_M) ? bearingDeg(from, towards) : null);
  if (bearing === null) return { refused: "Point somewhere first, or give a bearing: 24 @ 90." };
  return { points: [onGrid(pointAt(from, bearing, figures.length_m))] };
}

/** The points without those that repeat the one before: a double click sets its place twice. */
export function withoutRepeats(points, { closed = false, atOf = (point) => point } = {}) {
  const same = (one, other) => samePlace(atOf(one), atOf(other), SAME_M);
  const kept = points.filter((point, index) => index === 0 || !same(point, points[index - 1]));
  while (closed && kept.length > 1 && same(kept[0], kept.at(-1))) kept.pop();
  return kept;
}

/** The place on a bearing from a point that is nearest to another. */
export function alongBearing(from, bearing_deg, to) {
  const turn = (bearing_deg * Math.PI) / 180;
  const length_m = (to[0] - from[0]) * Math.sin(turn) + (to[1] - from[1]) * Math.cos(turn);
  return onGrid(pointAt(from, bearing_deg, Math.max(0, length_m)));
}
