// Heads, valves, junctions, controllers and the supply.

import { addEntity } from "./entities.js";
import { mapGroup, listOf } from "./groups.js";
import { mustFind, pathOfEntity, supplyNode } from "./lookup.js";
import { nearestOnPath } from "./paths.js";
import { placed } from "./points.js";
import { EditRefused } from "./refused.js";
import { canSplitAt, putThrough, tooNear } from "./pipe_splitting.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {{doc: object, ids: string[], notes?: string[]}} Edited */

export const ON_PIPE_M = 0.02;

/**
 * A new node. On a pipe (named by `on`, or nearer than 0.02 m) it is put into it: the pipe becomes two of the same
 * part, the first with the old id. `on: false` leaves it beside whatever is there.
 * @param {object} doc @param {object} node kind, at, part... @param {{on?: string|null|false}} [options]
 * @returns {Edited} ids: the node, then the parts of the pipe
 */
export function addNode(doc, node, { on = null } = {}) {
  if (node.kind === "supply") return addSupply(doc, node);
  const at = placed(node.at);
  const pipe = node.kind === "controller" || on === false ? null : pipeFor(doc, at, on);
  const foot = pipe ? placeOnPipe(doc, pipe, at) : at;
  const { doc: next, id } = addEntity(doc, "nodes", { ...node, at: foot });
  if (!pipe) return { doc: next, ids: [id] };
  const split = putThrough(next, pipe, id);
  return { doc: split.doc, ids: [id, ...split.ids] };
}

function addSupply(doc, node) {
  const there = supplyNode(doc);
  if (there) throw new EditRefused(`There is a supply already, ${there.id}; a plan has one.`);
  return setSupply(doc, node.at, node);
}

function pipeFor(doc, at, on) {
  if (on) {
    const { entity } = mustFind(doc, on, "pipes");
    if (!canSplitAt(doc, entity, at)) throw tooNear("This", on);
    return entity;
  }
  return pipeNear(doc, at);
}

/**
 * The pipe that passes a place, if it can take a node there.
 * @param {object} doc @param {XY} at @param {number} [within_m] @returns {object|null}
 */
export function pipeNear(doc, at, within_m = ON_PIPE_M) {
  let [best, least_m] = [null, within_m + 1e-9];
  for (const pipe of listOf(doc, "pipes")) {
    const path = pathOfEntity(doc, pipe);
    if (!path) continue;
    const off_m = nearestOnPath(at, path).distance_m;
    if (off_m < least_m && canSplitAt(doc, pipe, at)) [best, least_m] = [pipe, off_m];
  }
  return best;
}

// A bend of the pipe that is meant takes the node itself, so that taking it away gives the same bend back.
function placeOnPipe(doc, pipe, at) {
  const path = pathOfEntity(doc, pipe);
  const found = nearestOnPath(at, path);
  if (found.distance_m > ON_PIPE_M) return at;
  const bend = path.slice(1, -1).find((point) => Math.hypot(point[0] - found.at[0], point[1] - found.at[1]) <= 0.005);
  return placed(bend ?? found.at);
}

/**
 * Where the water comes from: the supply's own place and the node at which the pipes begin move together.
 * @param {object} doc @param {XY} at @param {object} [node] label, id of a node that is new @returns {Edited}
 */
export function setSupply(doc, at, node = {}) {
  const place = placed(at);
  const moved = { ...doc, supply: { ...doc.supply, at: place } };
  const there = supplyNode(doc);
  if (there) {
    return { doc: mapGroup(moved, "nodes", (one) => (one === there ? { ...one, at: place } : one)), ids: [there.id] };
  }
  const { doc: next, id } = addEntity(moved, "nodes", { ...node, kind: "supply", at: place });
  return { doc: next, ids: [id] };
}
