// Making one node of two: an open end that is dragged onto a head is connected to it.

import { listOf, mapGroup, withReplaced } from "./groups.js";
import { withoutLostNames } from "./lost_names.js";
import { mustFind } from "./lookup.js";
import { EditRefused } from "./refused.js";
import { liesTwice } from "./twin_pipes.js";

/** @typedef {{doc: object, ids: string[], notes: string[]}} Edited */

/**
 * Ends the pipes and cables of one node at another, and takes the first away. Only a junction is given up so.
 * @param {object} doc @param {string} goneId @param {string} keptId
 * @returns {Edited} ids: the node that is kept; notes: pipes that would have begun and ended there, or lain twice
 */
export function mergeNodes(doc, goneId, keptId) {
  const gone = mustFind(doc, goneId, "nodes").entity;
  const kept = mustFind(doc, keptId, "nodes").entity;
  if (gone === kept) return { doc, ids: [keptId], notes: [] };
  if (gone.kind !== "junction") {
    throw new EditRefused(`${goneId} is a ${gone.kind}; only a junction becomes part of another node.`);
  }
  if (kept.kind === "controller") throw new EditRefused("No pipe ends at a controller.");
  const ends = (entity) => {
    if (entity.from !== goneId && entity.to !== goneId) return entity;
    const [from, to] = [entity.from, entity.to].map((end) => (end === goneId ? keptId : end));
    return { ...entity, from, to };
  };
  const moved = mapGroup(mapGroup(withReplaced(doc, "nodes", gone), "pipes", ends), "cables", ends);
  const lost = needless(moved, keptId);
  const next = mapGroup(mapGroup(moved, "pipes", (pipe) => (lost.has(pipe) ? null : pipe)), "cables", notToItself);
  const notes = lost.size ? [`No longer needed: ${[...lost].map((pipe) => pipe.id).join(", ")}.`] : [];
  return { doc: withoutLostNames(next), ids: [keptId], notes };
}

function notToItself(entity) {
  return entity.from === entity.to ? null : entity;
}

/** Pipes at a node that lead to itself, or lie where another lies. */
function needless(doc, nodeId) {
  const at = listOf(doc, "pipes").filter((pipe) => pipe.from === nodeId || pipe.to === nodeId);
  const twice = (pipe, i) => at.slice(0, i).some((other) => liesTwice(doc, pipe, other));
  return new Set(at.filter((pipe, i) => pipe.from === pipe.to || twice(pipe, i)));
}
