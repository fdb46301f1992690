// What a pointer means: the node, corner, crossing, edge or guide line near it.

import { bestGuide, alignGuides, extensionGuides, legGuides } from "./snap_guides.js";
import { featuresNear, indexFor } from "./snap_index.js";
import { footOnLine, linesMeet, pointOnSegment, segmentsMeet } from "./paths.js";
import { distance, onGrid, roundMm, samePlace } from "./points.js";

/** @typedef {import("./points.js").XY} XY */
/**
 * @typedef {object} SnapOptions
 * @property {number} radius_m how far the pointer catches
 * @property {XY|null} [from] where the leg that is drawn begins
 * @property {XY|null} [previous] the point before that
 * @property {Iterable<string>} [avoid] ids that do not count: what is being moved
 * @property {Iterable<string>|null} [ids] only these count
 * @property {number} [grid_m] a grid for free places; none without it
 */
/**
 * `how` tells lines apart: square, extension, align. `others`: further nodes in the same place.
 * @typedef {{at: XY, what: "node"|"end"|"edge"|"crossing"|"square"|"level"|"pipe"|"grid"|null, id: string|null,
 *   guide: [XY, XY]|null, how?: string, others?: string[]}} Snapped
 */

const MOST_SEGMENTS = 24;
const EXTENDS_M = 4;
const FREE = { what: null, id: null, guide: null };

/** @param {object} doc @param {XY} at @param {SnapOptions} options @returns {Snapped} */
export function snap(doc, at, { radius_m, from = null, previous = null, avoid = [], ids = null, grid_m = 0 }) {
  const index = indexFor(doc);
  const allowed = allowing(new Set(avoid), ids ? new Set(ids) : null);
  const near = [...featuresNear(index, at, radius_m)].filter(allowed);
  const point = pointSnap(at, near, radius_m);
  if (point) return point;
  const segments = nearestSegments(at, near, radius_m);
  const crossing = crossingSnap(at, segments, radius_m);
  if (crossing) return crossing;
  const lines = legGuides(at, from, previous, from ? sidesNear(index, from, 0.01, allowed) : []);
  if (segments.length) return edgeSnap(at, segments[0], lines, { radius_m, from });
  const reach_m = Math.max(EXTENDS_M, 4 * radius_m);
  const guides = [...lines, ...extensionGuides(at, sidesNear(index, at, reach_m, allowed), reach_m)];
  const aligned = alignGuides(index, at, radius_m / 2, allowed);
  return guideSnap(at, [...guides, ...aligned], radius_m) ?? freePlace(at, grid_m);
}

function allowing(avoid, only) {
  return ({ entry }) => {
    if (only && !only.has(entry.id)) return false;
    return !avoid.has(entry.id) && !avoid.has(entry.from?.id) && !avoid.has(entry.to?.id);
  };
}

function sidesNear(index, at, radius_m, allowed) {
  return [...featuresNear(index, at, radius_m)].filter((feature) => feature.a && allowed(feature));
}

function pointSnap(at, near, radius_m) {
  let best = null;
  for (const feature of near) {
    if (!feature.at) continue;
    const off_m = distance(feature.at, at);
    if (off_m > radius_m) continue;
    const rank = (feature.what === "node" ? 0 : 1e6) + off_m;
    if (!best || comesFirst({ feature, rank }, best)) best = { feature, rank };
  }
  if (!best) return null;
  const { feature } = best;
  const same = near.filter((other) => other !== feature && other.what === "node" && samePlace(other.at, feature.at));
  const others = same.map((other) => other.entry.id);
  return { at: onGrid(feature.at), what: feature.what, id: feature.entry.id, guide: null, others };
}

// Of things in one place the same one is meant each time, whatever was edited before.
function comesFirst(one, other) {
  if (Math.abs(one.rank - other.rank) > 1e-9) return one.rank < other.rank;
  return `${one.feature.what}${one.feature.entry.id}` < `${other.feature.what}${other.feature.entry.id}`;
}

function nearestSegments(at, near, radius_m) {
  const found = [];
  for (const feature of near) {
    if (!feature.a) continue;
    const foot = pointOnSegment(at, feature.a, feature.b);
    const rank = foot.distance_m - (feature.what === "pipe" ? 0.001 : 0); // a pipe along an edge is meant
    if (foot.distance_m <= radius_m) found.push({ ...foot, feature, rank });
  }
  return found.sort((one, other) => (comesFirst(one, other) ? -1 : 1)).slice(0, MOST_SEGMENTS);
}

function crossingSnap(at, segments, radius_m) {
  let best = null;
  segments.forEach(({ feature: one }, i) => {
    for (const { feature: other } of segments.slice(i + 1)) {
      const met = segmentsMeet(one.a, one.b, other.a, other.b);
      const off_m = met ? distance(met.at, at) : Infinity;
      if (off_m <= radius_m && (!best || off_m < best.off_m - 1e-9)) best = { at: met.at, off_m, id: one.entry.id };
    }
  });
  return best && { at: onGrid(best.at), what: "crossing", id: best.id, guide: null };
}

/** On an edge, where a guide line crosses it if that is near: so a leg meets a wall at right angles. */
function edgeSnap(at, { feature, at: foot }, lines, { radius_m, from }) {
  const found = { at: onGrid(foot), what: feature.what, id: feature.entry.id, guide: null };
  const places = lines.map((line) => meeting(line, feature)).filter(Boolean);
  const square = from && squareFoot(from, feature);
  if (square) places.push(square);
  const near = places.filter((place) => distance(place.at, at) <= radius_m);
  if (!near.length) return found;
  const best = near.reduce((least, place) => (distance(place.at, at) < distance(least.at, at) ? place : least));
  return { ...found, at: onGrid(best.at), guide: [best.shown, onGrid(best.at)], how: best.how };
}

function meeting(line, { a, b }) {
  const met = linesMeet(line.a, line.b, a, b);
  return met && met.second >= 0 && met.second <= 1 ? { at: met.at, shown: line.shown, how: line.how } : null;
}

function squareFoot(from, { a, b }) {
  const foot = footOnLine(from, a, b);
  const held = pointOnSegment(foot, a, b).distance_m < 1e-6 && distance(foot, from) > 0.01;
  return held ? { at: foot, shown: from, how: "square" } : null;
}

function guideSnap(at, guides, radius_m) {
  const best = bestGuide(at, guides, radius_m);
  if (!best) return null;
  const place = onGrid(best.at);
  return { at: place, what: "square", id: best.guide.id, guide: [best.guide.shown, place], how: best.guide.how };
}

function freePlace(at, grid_m) {
  if (!grid_m) return { at: onGrid(at), ...FREE };
  const onto = (value) => roundMm(Math.round(value / grid_m) * grid_m);
  return { ...FREE, at: [onto(at[0]), onto(at[1])], what: "grid" };
}
