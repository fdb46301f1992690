// Putting a node into a pipe, and making one pipe of two.

import { addEntity, PREFIX } from "./entities.js";
import { tidied, withList, withReplaced, listOf } from "./groups.js";
import { freshId, mustFind, nodeOf, pathOfEntity, pipesAt } from "./lookup.js";
import { withoutLostNames } from "./lost_names.js";
import { nearestOnPath, passesStraight, pathLength } from "./paths.js";
import { placed, samePlace } from "./points.js";
import { EditRefused } from "./refused.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {{doc: object, ids: string[], notes?: string[]}} Edited */

export const ON_PIPE_M = 0.02; // this near, a place is taken to be on the pipe
export const SHORTEST_PIPE_M = 0.05; // the document refuses shorter ones

/** Whether both parts would be long enough. @param {object} doc @param {object} pipe @param {XY} at */
export function canSplitAt(doc, pipe, at) {
  const path = pathOfEntity(doc, pipe);
  if (!path) return false;
  const { walked_m } = nearestOnPath(at, path);
  return walked_m >= SHORTEST_PIPE_M && pathLength(path) - walked_m >= SHORTEST_PIPE_M;
}

/**
 * Where a node goes that is put on a pipe. A bend takes it itself, so that taking it away gives the bend back.
 * @param {object} doc @param {object} pipe @param {XY} at @returns {XY}
 */
export function placeOnPipe(doc, pipe, at) {
  const path = pathOfEntity(doc, pipe);
  const found = nearestOnPath(at, path);
  if (found.distance_m > ON_PIPE_M) return at;
  const bend = path.slice(1, -1).find((point) => samePlace(point, found.at, 0.005));
  return placed(bend ?? found.at);
}

/**
 * Leads a pipe through a node that is there already. @param {object} doc @param {object} pipe @param {string} nodeId
 * @returns {{doc: object, ids: [string, string]}} the part with the old id, the new part
 */
export function putThrough(doc, pipe, nodeId) {
  const at = nodeOf(doc, nodeId).at;
  const path = pathOfEntity(doc, pipe);
  const { segment } = nearestOnPath(at, path);
  const bends = path.slice(1, -1);
  const apart = (point) => !samePlace(point, at);
  const first = { ...pipe, to: nodeId, via: bends.slice(0, segment).filter(apart) };
  const second = { ...pipe, id: freshId(doc, PREFIX.pipes), from: nodeId, via: bends.slice(segment).filter(apart) };
  return { doc: withReplaced(doc, "pipes", pipe, tidied(first), tidied(second)), ids: [first.id, second.id] };
}

/** @param {string} what @param {string} pipeId */
export function tooNear(what, pipeId) {
  return new EditRefused(`${what} is too near to an end of ${pipeId}; a pipe is at least ${SHORTEST_PIPE_M} m long.`);
}

/**
 * Cuts a pipe with a junction.
 * @param {object} doc @param {string} id @param {XY} at @returns {Edited} ids: junction, old part, new part
 */
export function splitPipe(doc, id, at) {
  const { entity } = mustFind(doc, id, "pipes");
  const path = pathOfEntity(doc, entity);
  if (!path) throw new EditRefused(`An end of ${id} is missing; it cannot be cut.`);
  const place = placeOnPipe(doc, entity, nearestOnPath(at, path).at);
  if (!canSplitAt(doc, entity, place)) throw tooNear("This", id);
  const made = addEntity(doc, "nodes", { kind: "junction", at: place });
  const split = putThrough(made.doc, entity, made.id);
  return { doc: split.doc, ids: [made.id, ...split.ids] };
}

/**
 * Leads a pipe through a node that stands on or beside it.
 * @param {object} doc @param {string} nodeId @param {string} pipeId @returns {Edited}
 */
export function attachNode(doc, nodeId, pipeId) {
  const node = mustFind(doc, nodeId, "nodes").entity;
  const pipe = mustFind(doc, pipeId, "pipes").entity;
  if (node.kind === "controller") throw new EditRefused("No pipe ends at a controller.");
  if (pipe.from === nodeId || pipe.to === nodeId) throw new EditRefused(`${pipeId} ends at ${nodeId} already.`);
  if (!canSplitAt(doc, pipe, node.at)) throw tooNear(nodeId, pipeId);
  const split = putThrough(doc, pipe, nodeId);
  return { doc: split.doc, ids: [nodeId, ...split.ids] };
}

/**
 * Takes a node with two pipes out of its line: one pipe stays, with the id of the first. The place stays a bend
 * only if the line turns there by more than 1 degree. What named the node goes too.
 * @param {object} doc @param {string} nodeId @returns {Edited}
 */
export function joinPipesAt(doc, nodeId) {
  const healed = healedAt(doc, nodeId);
  return { ...healed, doc: withoutLostNames(healed.doc) };
}

/** The same, leaving cables and cases to the caller. @param {object} doc @param {string} nodeId @returns {Edited} */
export function healedAt(doc, nodeId) {
  const node = mustFind(doc, nodeId, "nodes").entity;
  if (node.kind === "supply") throw new EditRefused("A plan keeps its supply; move it to its place instead.");
  const pipes = pipesAt(doc, nodeId);
  if (pipes.length !== 2) throw new EditRefused(`${pipes.length} pipes end at ${nodeId}; only two can become one.`);
  const [kept, other] = pipes;
  const pipe = onePipe(doc, node, kept, other);
  if (pipe.from === pipe.to) throw new EditRefused(`Both pipes lead from ${nodeId} to ${pipe.from}; they cannot become one.`);
  const left = listOf(doc, "pipes").flatMap((one) => (one === kept ? [pipe] : one === other ? [] : [one]));
  const nodes = listOf(doc, "nodes").filter((one) => one !== node);
  const notes = kept.part === other.part ? [] : [`${other.id} was ${other.part}; it is now part of ${kept.id}, ${kept.part}.`];
  return { doc: withList(withList(doc, "pipes", left), "nodes", nodes), ids: [kept.id], notes };
}

function onePipe(doc, node, kept, other) {
  const forward = kept.to === node.id;
  const leading = forward === (other.from === node.id);
  const otherVia = leading ? (other.via ?? []) : [...(other.via ?? [])].reverse();
  const far = other.from === node.id ? other.to : other.from;
  const [before, after] = forward ? [kept.via ?? [], otherVia] : [otherVia, kept.via ?? []];
  const [from, to] = forward ? [kept.from, far] : [far, kept.to];
  const start = before.at(-1) ?? nodeOf(doc, from)?.at ?? node.at;
  const end = after[0] ?? nodeOf(doc, to)?.at ?? node.at;
  const bend = passesStraight(start, node.at, end) ? [] : [node.at];
  return tidied({ ...kept, from, to, via: [...before, ...bend, ...after] });
}
