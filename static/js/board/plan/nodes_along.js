// Which nodes a drawn line takes in.

import { listOf } from "./groups.js";
import { pointOnSegment } from "./paths.js";
import { SHORTEST_PIPE_M } from "./pipe_splitting.js";
import { distance, samePlace } from "./points.js";

/** @typedef {import("./points.js").XY} XY */

const TAKEN_IN_M = 0.05;
const takesPipes = (node) => node.kind !== "controller";

/**
 * The nearest node at a place that a pipe can end at; the first of several in one place.
 * @param {object} doc @param {XY} at @param {number} [within_m] @returns {object|null}
 */
export function nodeAt(doc, at, within_m = TAKEN_IN_M) {
  let [best, least_m] = [null, within_m + 1e-9];
  for (const node of listOf(doc, "nodes")) {
    const off_m = distance(node.at, at);
    if (off_m < least_m && takesPipes(node)) [best, least_m] = [node, off_m - 1e-9];
  }
  return best;
}

/**
 * The nodes between two points of a drawn line, in its order, one for each place. The ends of the line count too:
 * a line may end on itself.
 * @param {object} doc @param {{at: XY}} from @param {{at: XY}} to @returns {{at: XY, node: string}[]}
 */
export function nodesAlong(doc, from, to) {
  const ends = [from, to].filter((point) => point.node || point.apart);
  const found = [];
  for (const node of listOf(doc, "nodes")) {
    if (!takesPipes(node) || ends.some((end) => samePlace(end.at, node.at, TAKEN_IN_M))) continue;
    const { distance_m, along } = pointOnSegment(node.at, from.at, to.at);
    if (distance_m <= TAKEN_IN_M + 1e-9 && along > 0 && along < 1) found.push({ at: node.at, node: node.id, along });
  }
  found.sort((one, other) => one.along - other.along);
  return found.filter((one, i) => i === 0 || distance(one.at, found[i - 1].at) >= SHORTEST_PIPE_M);
}
