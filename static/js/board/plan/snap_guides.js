// Lines that a drawn leg likes to keep to: square to something, in line with it, level with another corner.

import { footOnLine, linesMeet, pointOnSegment } from "./paths.js";
import { distance, samePlace } from "./points.js";
import { pointsInLine } from "./snap_index.js";

/** @typedef {import("./points.js").XY} XY */
/**
 * A line near the pointer: `a` and `b` lie on it, `shown` is where its guide begins.
 * @typedef {{a: XY, b: XY, shown: XY, how: "square"|"extension"|"align", id: string|null, foot: XY, off_m: number}} Guide
 */

const TOUCHES_M = 0.01;
const ALIGNS_WITHIN_M = 40;

function guide(at, a, b, shown, how, id) {
  const foot = footOnLine(at, a, b);
  return { a, b, shown, how, id, foot, off_m: distance(at, foot) };
}

function turned([a, b], from) {
  return [from, [from[0] - (b[1] - a[1]), from[1] + b[0] - a[0]]];
}

/**
 * Square to, and in line with, the leg before and the edges at the start point.
 * @param {XY} at @param {XY|null} from @param {XY|null} previous @param {object[]} segments near the start @returns {Guide[]}
 */
export function legGuides(at, from, previous, segments) {
  if (!from) return [];
  const lines = previous && !samePlace(previous, from) ? [{ side: [previous, from], id: null }] : [];
  for (const { a, b, entry } of segments) {
    const touches = distance(a, b) > TOUCHES_M && pointOnSegment(from, a, b).distance_m <= TOUCHES_M;
    if (touches) lines.push({ side: [a, b], id: entry.id });
  }
  return lines.flatMap(({ side, id }) => {
    const [start, aside] = turned(side, from);
    const ahead = [from[0] + side[1][0] - side[0][0], from[1] + side[1][1] - side[0][1]];
    return [guide(at, start, aside, from, "square", id), guide(at, from, ahead, from, "extension", id)];
  });
}

/**
 * Edges drawn on beyond their ends.
 * @param {XY} at @param {object[]} segments @param {number} reach_m @returns {Guide[]}
 */
export function extensionGuides(at, segments, reach_m) {
  const found = [];
  for (const { a, b, entry } of segments) {
    if (distance(a, b) <= TOUCHES_M) continue;
    const end = distance(at, a) < distance(at, b) ? a : b;
    const line = guide(at, a, b, end, "extension", entry.id);
    const beyond = pointOnSegment(line.foot, a, b).distance_m;
    if (beyond > 1e-6 && beyond <= reach_m) found.push(line);
  }
  return found;
}

/**
 * The nearest corner with the same x, and that with the same y.
 * @param {object} index @param {XY} at @param {number} within_m @param {(feature: object) => boolean} allowed @returns {Guide[]}
 */
export function alignGuides(index, at, within_m, allowed) {
  return [0, 1].flatMap((axis) => {
    const near = pointsInLine(index, at, axis, within_m).filter((feature) => allowed(feature));
    let [best, least_m] = [null, ALIGNS_WITHIN_M];
    for (const feature of near) {
      const off_m = distance(feature.at, at);
      const first = off_m < least_m - 1e-9 || (best && off_m < least_m + 1e-9 && nameOf(feature) < nameOf(best));
      if (first) [best, least_m] = [feature, off_m];
    }
    if (!best) return [];
    const beyond = axis === 0 ? [best.at[0], best.at[1] + 1] : [best.at[0] + 1, best.at[1]];
    return [guide(at, best.at, beyond, best.at, "align", best.entry.id)];
  });
}

/**
 * The guide to keep to: where two of them cross if that is near, else the nearest.
 * @param {XY} at @param {Guide[]} guides strong ones first @param {number} radius_m
 * @returns {{at: XY, guide: Guide}|null}
 */
export function bestGuide(at, guides, radius_m) {
  const near = guides.filter((one) => one.off_m <= radius_m).sort(inOrder);
  if (!near.length) return null;
  const first = near[0];
  let [place, least_m] = [first.foot, radius_m];
  for (const other of near) {
    const met = other === first ? null : linesMeet(first.a, first.b, other.a, other.b);
    if (met && distance(met.at, at) < least_m - 1e-9) [place, least_m] = [met.at, distance(met.at, at)];
  }
  return { at: place, guide: first };
}

const WEAKER = { square: 0, extension: 0, align: 1e6 };
const rank = (one) => WEAKER[one.how] + one.off_m;
const nameOf = (feature) => `${feature.entry.id}`;

// Of guides on one line the same one is meant each time, whatever was edited before.
function inOrder(one, other) {
  if (Math.abs(rank(one) - rank(other)) > 1e-9) return rank(one) - rank(other);
  return `${one.id}` < `${other.id}` ? -1 : 1;
}
