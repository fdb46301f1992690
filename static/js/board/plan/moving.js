// Moving and turning what is selected.

import { GROUPS, mapGroup } from "./groups.js";
import { mustFind, supplyNode } from "./lookup.js";
import { rotate, shifted } from "./points.js";
import { EditRefused } from "./refused.js";
import { relocated } from "./shifting.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {{doc: object, ids: string[]}} Edited */

/**
 * Moves entities with all their points. Pipes and cables between moved nodes bring their bends; one that is selected
 * without its ends moves its bends only. The supply and its node move together.
 * @param {object} doc @param {Iterable<string>} ids @param {number} dx [m] @param {number} dy [m] @returns {Edited}
 */
export function moveAll(doc, ids, dx, dy) {
  if (!dx && !dy) return { doc, ids: [...ids] };
  return shiftAll(doc, ids, (point) => shifted(point, dx, dy), 0);
}

/**
 * Turns entities clockwise about a point, arcs of heads included.
 * @param {object} doc @param {Iterable<string>} ids @param {XY} about @param {number} deg @returns {Edited}
 */
export function turnAll(doc, ids, about, deg) {
  if (!(deg % 360)) return { doc, ids: [...ids] };
  return shiftAll(doc, ids, (point) => rotate(point, about, deg), deg);
}

function shiftAll(doc, ids, move, turn_deg) {
  const moved = withSupply(doc, new Set(ids));
  for (const id of moved) mustFind(doc, id);
  const moves = (entity) => moved.has(entity.id) || (moved.has(entity.from) && moved.has(entity.to));
  let next = doc;
  for (const group of GROUPS) {
    next = mapGroup(next, group, (entity) => (moves(entity) && hasPoints(entity) ? relocated(entity, move, turn_deg) : entity));
  }
  const supply = moved.has("supply") || moved.has(supplyNode(doc)?.id);
  if (supply && next.supply?.at) next = { ...next, supply: relocated(next.supply, move) };
  if (next === doc) throw new EditRefused("A pipe or cable without bends moves with its ends; select those.");
  return { doc: next, ids: [...ids] };
}

function withSupply(doc, ids) {
  const node = supplyNode(doc);
  if (!node || !ids.has("supply")) return ids;
  return new Set([...ids, node.id]);
}

function hasPoints(entity) {
  return Boolean(entity.at || entity.outline || entity.path || entity.via?.length);
}
