// Closed outlines: lists of corners, the last joined to the first.

import { between, pointOnSegment, segmentsMeet, withoutRepeats } from "./paths.js";
import { samePlace } from "./points.js";

/** @typedef {import("./points.js").XY} XY */

/** Area with its sign: positive anticlockwise [m2]. @param {XY[]} ring */
export function signedArea(ring) {
  let twice = 0;
  const [ox, oy] = ring[0] ?? [0, 0];
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
    twice += (ring[j][0] - ox) * (ring[i][1] - oy) - (ring[i][0] - ox) * (ring[j][1] - oy);
  }
  return twice / 2;
}

/** Area inside a ring [m2]. @param {XY[]} ring */
export function ringArea(ring) {
  return Math.abs(signedArea(ring));
}

/** The sides of a ring, the closing one included. @param {XY[]} ring @returns {[XY, XY][]} */
export function ringSides(ring) {
  return ring.map((corner, i) => [corner, ring[(i + 1) % ring.length]]);
}

/** Whether a point lies inside a ring; on its line either answer may come. @param {XY} point @param {XY[]} ring */
export function insideRing([x, y], ring) {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
    const [[x1, y1], [x2, y2]] = [ring[j], ring[i]];
    if (y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1) inside = !inside;
  }
  return inside;
}

/** Distance from a point to the line of a ring [m]. @param {XY} point @param {XY[]} ring */
export function distanceToRing(point, ring) {
  let least = Infinity;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
    least = Math.min(least, pointOnSegment(point, ring[j], ring[i]).distance_m);
  }
  return least;
}

/** Inside, or on the line within a tolerance. @param {XY} point @param {XY[]} ring @param {number} within_m */
function insideOrOn(point, ring, within_m = 0.001) {
  return insideRing(point, ring) || distanceToRing(point, ring) <= within_m;
}

/**
 * Whether one ring lies inside another, up to sharing its line within a millimetre.
 * @param {XY[]} ring @param {XY[]} outline
 */
export function ringInside(ring, outline) {
  const places = ringSides(ring).flatMap(([a, b]) => [a, between(a, b, 0.5)]);
  return places.every((place) => insideOrOn(place, outline)) && !ringsCross(ring, outline);
}

/** Whether sides of two rings pass through each other. @param {XY[]} one @param {XY[]} other */
export function ringsCross(one, other) {
  const inner = (along) => along > 1e-6 && along < 1 - 1e-6;
  return ringSides(one).some(([a, b]) =>
    ringSides(other).some(([c, d]) => {
      const found = segmentsMeet(a, b, c, d);
      return found && inner(found.first) && inner(found.second) && !runsAlong(found.at, [a, b], [c, d]);
    }),
  );
}

// Sides that share a line to a millimetre may cross there by rounding.
function runsAlong(at, [a, b], [c, d]) {
  const ends = [[a, c, d], [b, c, d], [c, a, b], [d, a, b]];
  return ends.filter(([end, from, to]) => pointOnSegment(end, from, to).distance_m <= 0.001).length >= 2;
}

/**
 * The corners as an outline is kept: none twice in a row, the first not repeated.
 * @param {XY[]} points @returns {XY[]}
 */
export function tidyRing(points) {
  const ring = withoutRepeats(points);
  while (ring.length > 1 && samePlace(ring[0], ring.at(-1), 0.0005)) ring.pop();
  return ring;
}

/** A place well inside a ring, for a label or a test. @param {XY[]} ring @returns {XY} */
export function placeInside(ring) {
  const [low, high] = [Math.min(...ring.map((c) => c[1])), Math.max(...ring.map((c) => c[1]))];
  let [best, widest] = [ring[0], -1];
  for (const share of [0.5, 0.37, 0.63, 0.21, 0.79, 0.08, 0.93]) {
    const y = low + share * (high - low);
    const xs = crossingsAtHeight(ring, y);
    for (let i = 0; i + 1 < xs.length; i += 2) {
      if (xs[i + 1] - xs[i] > widest) [best, widest] = [[(xs[i] + xs[i + 1]) / 2, y], xs[i + 1] - xs[i]];
    }
  }
  return best;
}

function crossingsAtHeight(ring, y) {
  const sides = ringSides(ring).filter(([a, b]) => a[1] > y !== b[1] > y);
  return sides.map(([a, b]) => between(a, b, (y - a[1]) / (b[1] - a[1]))[0]).sort((p, q) => p - q);
}

/**
 * Where a ring crosses or touches itself; null for a sound one.
 * @param {XY[]} ring @returns {XY|null}
 */
export function selfCrossing(ring) {
  const sides = ringSides(ring);
  const order = sides.map((side, i) => ({ side, i, low: Math.min(side[0][0], side[1][0]) }));
  order.sort((a, b) => a.low - b.low);
  for (let m = 0; m < order.length; m += 1) {
    const right = Math.max(order[m].side[0][0], order[m].side[1][0]);
    for (let n = m + 1; n < order.length && order[n].low <= right; n += 1) {
      const found = sidesTouch(order[m], order[n], sides.length);
      if (found) return found;
    }
  }
  return null;
}

function sidesTouch(one, other, count) {
  const [first, second] = one.i < other.i ? [one, other] : [other, one];
  const [[a, b], [c, d]] = [first.side, second.side];
  const follows = second.i === first.i + 1;
  const closes = first.i === 0 && second.i === count - 1;
  if (follows || closes) return foldsBack(follows ? [a, b, d] : [c, d, b]);
  if (rangeApart(a[1], b[1], c[1], d[1])) return null;
  const meeting = segmentsMeet(a, b, c, d);
  if (meeting) return meeting.at;
  return [c, d].find((p) => onSide(p, a, b)) ?? [a, b].find((p) => onSide(p, c, d)) ?? null;
}

function foldsBack([a, b, c]) {
  if (onSide(c, a, b)) return c;
  return onSide(a, b, c) ? a : null;
}

function onSide(point, a, b) {
  return pointOnSegment(point, a, b).distance_m < 1e-6;
}

function rangeApart(a, b, c, d) {
  return Math.max(a, b) < Math.min(c, d) || Math.max(c, d) < Math.min(a, b);
}
