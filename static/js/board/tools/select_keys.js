// The selection by keyboard: go through the plan, move, turn, remove.

import { arrowStep } from "../shortcuts.js";
import { neighbourOf } from "./reading_order.js";
import { describe } from "./wording.js";

export function selectKeys(context, actions) {
  const { store, say, data } = context;

  function go(forward) {
    const id = neighbourOf(store.document, store.selection, forward);
    if (!id) return store.select([]), say(""), false; // past the last one Tab leaves the plan
    store.select([id]);
    say(describe(store.document, id, data));
    return true;
  }

  function escape() {
    if (store.selection.length) store.select([]), say("Nothing selected.");
    else context.toTools();
    return true;
  }

  return (event) => {
    if (event.key === "Tab" && !event.ctrlKey && !event.altKey) return go(!event.shiftKey);
    if (event.key === "Escape") return escape();
    if (!store.selection.length || event.ctrlKey || event.metaKey) return false;
    const step = arrowStep(event);
    if (step) return actions.move(step), true;
    if (event.key === "Delete" || event.key === "Backspace") return actions.remove(), true;
    if (event.key === "Enter") return context.editField(null), true;
    if (event.key.toLowerCase() === "r" && !event.altKey) return context.editField("turn"), true;
    return false;
  };
}
