// The document of the board, what is selected, and every step back to the beginning.

import { find } from "./plan/lookup.js";

/**
 * @typedef {{name: string, before: object, after: object, merge: string|null}} Step
 * @typedef {{select?: string[], merge?: string}} ApplyOptions `merge`: a key under which steps of one drag become one
 */

/** Keeps whole documents: they share all that did not change. @param {object} document */
export function createStore(document) {
  const done = /** @type {Step[]} */ ([]);
  const undone = /** @type {Step[]} */ ([]);
  const listeners = { document: new Set(), selection: new Set() };
  let [current, selection, open] = [document, Object.freeze([]), null];

  const tell = (what, value) => [...listeners[what]].forEach((listener) => listener(value));

  function select(ids) {
    const next = Object.freeze([...new Set(ids)].filter((id) => find(current, id)));
    if (next.length === selection.length && next.every((id, i) => id === selection[i])) return;
    selection = next;
    tell("selection", selection);
  }

  function show(next, name, ids = selection) {
    const before = current;
    current = next;
    if (next !== before) tell("document", { document: next, before, name });
    select(ids);
  }

  function record(name, next, merge) {
    const last = done.at(-1);
    if (merge && open === merge && last?.merge === merge) {
      done.pop();
      if (last.before !== next) done.push({ ...last, name, after: next });
    } else {
      done.push({ name, before: current, after: next, merge });
    }
    undone.length = 0;
    open = merge;
  }

  /** @param {string} name @param {object} next @param {ApplyOptions} [options] */
  function apply(name, next, { select: ids, merge = null } = {}) {
    if (next !== current) record(name, next, merge);
    show(next, name, ids);
  }

  function step(from, to, side) {
    const one = from.pop();
    open = null;
    if (!one) return false;
    to.push(one);
    show(one[side], one.name);
    return true;
  }

  return {
    get document() { return current; },
    get selection() { return selection; },
    get canUndo() { return done.length > 0; },
    get canRedo() { return undone.length > 0; },
    get undoName() { return done.at(-1)?.name ?? ""; },
    get redoName() { return undone.at(-1)?.name ?? ""; },
    apply,
    select,
    /** Ends a drag: the next step with the same key is a step of its own. */
    seal() { open = null; },
    undo: () => step(done, undone, "before"),
    redo: () => step(undone, done, "after"),
    /** Takes over another version, as a step that can be undone. @param {object} next */
    replace(next, name = "Take over the saved version") { apply(name, next); },
    /** @param {"document"|"selection"} what @param {(value: any) => void} listener @returns {() => void} */
    on(what, listener) {
      listeners[what].add(listener);
      return () => listeners[what].delete(listener);
    },
  };
}
