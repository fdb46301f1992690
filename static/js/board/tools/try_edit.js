// One step of drawing: do it and name it, or say why not and leave everything as it was.

import { find } from "../plan/lookup.js";
import { EditRefused } from "../plan/refused.js";

/**
 * Applies `edit(document)`, which gives a document or {doc, ids, notes}, as one named step. Gives the ids that it
 * made or kept, or null where it was refused. Of the ids those in `group` are selected, "first" for the first.
 * Steps in a row with the same `merge` are undone as one.
 */
export function tryEdit({ store, say }, name, edit, { group = null, select = true, merge = null } = {}) {
  try {
    const answer = edit(store.document);
    const doc = answer.doc ?? answer;
    const ids = answer.ids ?? [];
    const chosen = select ? chosenOf(doc, ids, group) : [];
    if (doc !== store.document) store.apply(name, doc, { merge, ...(chosen.length ? { select: chosen } : {}) });
    if (answer.notes?.length) say(answer.notes.join(" "));
    return ids;
  } catch (refusal) {
    if (!(refusal instanceof EditRefused)) throw refusal;
    say(refusal.message);
    return null;
  }
}

function chosenOf(doc, ids, group) {
  if (group === "first") return ids.slice(0, 1);
  return group ? ids.filter((id) => find(doc, id)?.group === group) : ids;
}
