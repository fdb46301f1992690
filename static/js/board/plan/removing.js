// Taking things off the plan, with what cannot stay without them.

import { GROUPS, mapGroup } from "./groups.js";
import { find, nodeOf, pipesAt } from "./lookup.js";
import { withoutLostNames } from "./lost_names.js";
import { healedAt } from "./pipe_splitting.js";
import { EditRefused } from "./refused.js";

/**
 * Removes entities. A node in the line of two pipes heals them into one; else its pipes go, and junctions that this
 * leaves at the end of one pipe go with it. Cables of a removed device go; cases forget it; heads forget a removed area.
 * A pipe that is removed itself leaves its ends, but for junctions that then have no pipe at all.
 * @param {object} doc @param {Iterable<string>} ids
 * @returns {{doc: object, ids: string[], notes: string[]}} ids: of what stayed and was healed
 */
export function removeAll(doc, ids) {
  const chosen = [...new Set(ids)].filter((id) => find(doc, id));
  const supply = (id) => id === "supply" || nodeOf(doc, id)?.kind === "supply";
  const going = chosen.filter((id) => !supply(id));
  if (chosen.length && !going.length) throw new EditRefused("A plan keeps its supply; move it to its place instead.");
  const notes = chosen.length > going.length ? ["The supply stays; move it to its place instead."] : [];
  const nodes = going.filter((id) => nodeOf(doc, id));
  const rest = new Set(going.filter((id) => !nodeOf(doc, id)));
  const bared = endsOf(doc, rest);
  let step = { doc: withoutEntities(doc, rest), notes, kept: new Set() };
  for (const id of nodes) step = withoutNode(step, id, new Set(nodes));
  for (const id of bared) if (isBare(step.doc, id)) step.doc = withoutEntities(step.doc, new Set([id]));
  const next = withoutLostNames(step.doc);
  return { doc: next, ids: [...step.kept].filter((id) => find(next, id)), notes: step.notes };
}

function endsOf(doc, ids) {
  const pipes = [...ids].map((id) => find(doc, id)).filter((found) => found.group === "pipes");
  return pipes.flatMap(({ entity }) => [entity.from, entity.to]);
}

function isBare(doc, id) {
  return nodeOf(doc, id)?.kind === "junction" && pipesAt(doc, id).length === 0;
}

function withoutEntities(doc, ids) {
  if (!ids.size) return doc;
  for (const group of GROUPS) doc = mapGroup(doc, group, (entity) => (ids.has(entity.id) ? null : entity));
  return doc;
}

function withoutNode({ doc, notes, kept }, id, going) {
  const pipes = pipesAt(doc, id);
  if (!nodeOf(doc, id)) return { doc, notes, kept };
  if (pipes.length === 2 && farEnds(pipes, id).size === 2) {
    const healed = healedAt(doc, id);
    return { doc: healed.doc, notes: [...notes, ...healed.notes], kept: kept.add(healed.ids[0]) };
  }
  const after = withoutEntities(doc, new Set([id, ...pipes.map((pipe) => pipe.id)]));
  const trimmed = trimmedFrom(after, farEnds(pipes, id), going);
  const told = trimmed.gone.length ? [`${trimmed.gone.join(", ")} led nowhere any more and went too.`] : [];
  return { doc: trimmed.doc, notes: [...notes, ...told], kept };
}

function farEnds(pipes, id) {
  return new Set(pipes.map((pipe) => (pipe.from === id ? pipe.to : pipe.from)));
}

/** Junctions that lost a pipe and have one or none left lead nowhere; so on along the line. */
function trimmedFrom(doc, starts, going) {
  const [queue, gone] = [[...starts], []];
  while (queue.length) {
    const id = queue.shift();
    const left = pipesAt(doc, id);
    if (going.has(id) || nodeOf(doc, id)?.kind !== "junction" || left.length > 1) continue;
    queue.push(...farEnds(left, id));
    gone.push(id, ...left.map((pipe) => pipe.id));
    doc = withoutEntities(doc, new Set([id, ...left.map((pipe) => pipe.id)]));
  }
  return { doc, gone };
}
