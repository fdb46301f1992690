// Heads, valves, junctions, controllers and the supply.

import { addEntity } from "./entities.js";
import { mapGroup, listOf } from "./groups.js";
import { mustFind, pathOfEntity, supplyNode } from "./lookup.js";
import { nearestOnPath } from "./paths.js";
import { placed } from "./points.js";
import { EditRefused } from "./refused.js";
import { ON_PIPE_M, canSplitAt, placeOnPipe, putThrough, tooNear } from "./pipe_splitting.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {{doc: object, ids: string[], notes?: string[]}} Edited */

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
