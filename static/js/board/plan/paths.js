// Segments and polylines in site metres.

import { bendDeg, distance, samePlace } from "./points.js";

/** @typedef {import("./points.js").XY} XY */

/** Length of a polyline [m]. @param {XY[]} path */
export function pathLength(path) {
  let total_m = 0;
  for (let i = 1; i < path.length; i += 1) total_m += distance(path[i - 1], path[i]);
  return total_m;
}

/**
 * The point of a segment nearest to another: where it is, how far, and how far along (0 to 1).
 * @param {XY} point @param {XY} start @param {XY} end
 * @returns {{at: XY, distance_m: number, along: number}}
 */
export function pointOnSegment(point, start, end) {
  const along = Math.min(1, Math.max(0, alongLine(point, start, end)));
  const at = between(start, end, along);
  return { at, distance_m: distance(point, at), along };
}

/**
 * The foot of a point on the endless line through two others.
 * @param {XY} point @param {XY} start @param {XY} end @returns {XY}
 */
export function footOnLine(point, start, end) {
  return between(start, end, alongLine(point, start, end));
}

/**
 * Where the foot of a point lies: 0 at the start, 1 at the end.
 * @param {XY} point @param {XY} start @param {XY} end
 */
export function alongLine(point, start, end) {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const square = dx * dx + dy * dy;
  return square === 0 ? 0 : ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square;
}

/** @param {XY} start @param {XY} end @param {number} along @returns {XY} */
export function between(start, end, along) {
  if (along === 1) return [end[0], end[1]];
  return [start[0] + along * (end[0] - start[0]), start[1] + along * (end[1] - start[1])];
}

/**
 * The point of a polyline nearest to another, with the number of its segment and how far along the line [m].
 * @param {XY} point @param {XY[]} path
 * @returns {{at: XY, distance_m: number, segment: number, along: number, walked_m: number}}
 */
export function nearestOnPath(point, path) {
  let best = { at: path[0], distance_m: distance(point, path[0]), segment: 0, along: 0, walked_m: 0 };
  let walked_m = 0;
  for (let i = 1; i < path.length; i += 1) {
    const found = pointOnSegment(point, path[i - 1], path[i]);
    const length_m = distance(path[i - 1], path[i]);
    if (found.distance_m < best.distance_m - 1e-9) {
      best = { ...found, segment: i - 1, walked_m: walked_m + found.along * length_m };
    }
    walked_m += length_m;
  }
  return best;
}

/**
 * Where two lines meet, with how far along each; null where they are parallel.
 * @param {XY} a @param {XY} b @param {XY} c @param {XY} d
 * @returns {{at: XY, first: number, second: number}|null}
 */
export function linesMeet(a, b, c, d) {
  const [rx, ry, sx, sy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = rx * sy - ry * sx;
  if (Math.abs(cross) <= 1e-9 * Math.hypot(rx, ry) * Math.hypot(sx, sy)) return null;
  const [qx, qy] = [c[0] - a[0], c[1] - a[1]];
  const first = (qx * sy - qy * sx) / cross;
  return { at: [a[0] + first * rx, a[1] + first * ry], first, second: (qx * ry - qy * rx) / cross };
}

/** The same, only where both segments hold the place. @param {XY} a @param {XY} b @param {XY} c @param {XY} d */
export function segmentsMeet(a, b, c, d) {
  const found = linesMeet(a, b, c, d);
  const inside = (along) => along >= -1e-9 && along <= 1 + 1e-9;
  return found && inside(found.first) && inside(found.second) ? found : null;
}

/**
 * Whether a line passes a point as if it were straight: at most 1 degree or 1 mm.
 * @param {XY} a @param {XY} b @param {XY} c
 */
export function passesStraight(a, b, c) {
  const off = pointOnSegment(b, a, c);
  return bendDeg(a, b, c) <= 1 || (off.distance_m <= 0.001 && off.along > 0 && off.along < 1);
}

/**
 * The points without those that repeat the one before.
 * @param {XY[]} points @param {number} within_m @returns {XY[]}
 */
export function withoutRepeats(points, within_m = 0.0005) {
  return points.filter((point, i) => i === 0 || !samePlace(point, points[i - 1], within_m));
}

/**
 * A point moved so that its leg stands square to, or in line with, a given line.
 * @param {XY} from @param {XY} to @param {XY} a @param {XY} b @returns {XY}
 */
export function squareTo(from, to, a, b) {
  const beyond = [from[0] + b[0] - a[0], from[1] + b[1] - a[1]];
  const aside = [from[0] - (b[1] - a[1]), from[1] + b[0] - a[0]];
  const [along, across] = [footOnLine(to, from, beyond), footOnLine(to, from, aside)];
  return distance(along, to) < distance(across, to) ? along : across;
}
