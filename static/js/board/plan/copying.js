// Copies of what is selected, with the pipes and cables between.

import { PREFIX } from "./entities.js";
import { GROUPS, listOf, withAdded } from "./groups.js";
import { find, freshId, nodeOf } from "./lookup.js";
import { shifted } from "./points.js";
import { EditRefused } from "./refused.js";
import { relocated } from "./shifting.js";
import { areaFor } from "./watered_area.js";

/**
 * Copies entities beside themselves. Pipes and cables between copied nodes come along; cases do not, and a plan
 * has one supply.
 * @param {object} doc @param {Iterable<string>} ids @param {number} dx [m] @param {number} dy [m]
 * @returns {{doc: object, ids: string[], notes: string[]}} ids: of the copies
 */
export function copyAll(doc, ids, dx, dy) {
  const chosen = new Set([...ids].filter((id) => find(doc, id)));
  const single = (id) => id === "supply" || nodeOf(doc, id)?.kind === "supply";
  const nodes = new Set([...chosen].filter((id) => nodeOf(doc, id) && !single(id)));
  const copied = [];
  const between = (entity) => nodes.has(entity.from) && nodes.has(entity.to);
  const taken = (entity) => (entity.from === undefined ? chosen.has(entity.id) && !single(entity.id) : between(entity));
  for (const group of GROUPS) copied.push(...listOf(doc, group).filter(taken).map((entity) => ({ group, entity })));
  if (!copied.length) throw new EditRefused(nothingToCopy(chosen, single));
  return addCopies(doc, copied, dx, dy, notesOn(doc, chosen, nodes, single));
}

function nothingToCopy(chosen, single) {
  if ([...chosen].some(single)) return "A plan has one supply; it cannot be copied.";
  return chosen.size ? "A pipe or cable is copied together with its two ends; select those too." : "Select what to copy.";
}

function addCopies(doc, copied, dx, dy, notes) {
  const [names, made] = [new Map(), []];
  let next = doc;
  for (const { group, entity } of copied) {
    const id = freshId(next, PREFIX[group === "nodes" ? entity.kind : group]);
    names.set(entity.id, id);
    const copy = relocated({ ...entity, id }, (point) => shifted(point, dx, dy));
    next = withAdded(next, group, renamed(doc, copy, names));
    made.push(id);
  }
  return { doc: next, ids: made, notes };
}

// Areas come before nodes and nodes before pipes, so each name that is asked for is known.
function renamed(doc, copy, names) {
  const after = { ...copy };
  if (copy.from !== undefined) Object.assign(after, { from: names.get(copy.from), to: names.get(copy.to) });
  if (copy.area === undefined) return after;
  const area = names.get(copy.area) ?? areaFor(doc, copy.at, [copy.area]) ?? areaFor(doc, copy.at);
  if (area === undefined) delete after.area;
  else after.area = area;
  return after;
}

function notesOn(doc, chosen, nodes, single) {
  const notes = [];
  if ([...chosen].some(single)) notes.push("The supply was not copied; a plan has one.");
  const loose = [...chosen].filter((id) => {
    const { entity } = find(doc, id);
    return entity.from !== undefined && !(nodes.has(entity.from) && nodes.has(entity.to));
  });
  if (loose.length) notes.push(`Not copied, as an end was not selected: ${loose.join(", ")}.`);
  return notes;
}
