// What can be done to the selection: move, copy, turn, remove, join. Keys and buttons both come here.

import { copyAll, moveAll, removeAll, removePoint, turnAll, insertPoint } from "../plan/edits.js";
import { joinOutlines } from "../plan/ground_edits.js";
import { extentOf, find, pipesAt, everyId } from "../plan/lookup.js";
import { joinPipesAt } from "../plan/network_edits.js";
import { tryEdit } from "./try_edit.js";

export function createActions(context) {
  const { store, say } = context;
  let copied = [];

  const chosen = () => store.selection;
  const none = () => (chosen().length ? false : (say("Select something first."), true));

  function middleOf(ids) {
    const [west, south, east, north] = extentOf(store.document, ids);
    return [(west + east) / 2, (south + north) / 2];
  }

  return {
    move([dx, dy]) {
      if (none()) return;
      tryEdit(context, "Move", (doc) => moveAll(doc, chosen(), dx, dy), { select: false });
    },
    remove() {
      if (none()) return;
      const count = chosen().length;
      const ids = tryEdit(context, "Remove", (doc) => removeAll(doc, chosen()), { select: false });
      if (ids) say(count === 1 ? "Removed." : `${count} removed.`);
      store.select(chosen().filter((id) => find(store.document, id)));
    },
    copy() {
      if (none()) return;
      copied = [...chosen()];
      say(`${copied.length} copied. Ctrl+V puts the copy down.`);
    },
    /** Puts copies down, moved by so much. */
    paste([dx, dy] = [1, -1], ids = copied) {
      const there = ids.filter((id) => find(store.document, id));
      if (!there.length) return say("Nothing is copied.");
      const made = tryEdit(context, "Copy", (doc) => copyAll(doc, there, dx, dy));
      if (made?.length && ids === copied) copied = [...chosen()];
      return made;
    },
    turn(deg) {
      if (none()) return;
      tryEdit(context, "Turn", (doc) => turnAll(doc, chosen(), middleOf(chosen()), deg), { select: false });
    },
    all: () => store.select([...everyId(store.document)]),
    /** "outlines", "pipes" or null: what Join would do. */
    joins() {
      const groups = new Set(chosen().map((id) => find(store.document, id)?.group));
      if (chosen().length > 1 && groups.size === 1 && (groups.has("areas") || groups.has("surfaces"))) return "outlines";
      if (chosen().length !== 1 || !groups.has("nodes")) return null;
      const node = find(store.document, chosen()[0]).entity;
      return node.kind === "junction" && pipesAt(store.document, node.id).length === 2 ? "pipes" : null;
    },
    join() {
      const what = this.joins();
      if (what === "outlines") tryEdit(context, "Join outlines", (doc) => joinOutlines(doc, chosen()));
      else if (what === "pipes") tryEdit(context, "Join pipes", (doc) => joinPipesAt(doc, chosen()[0]));
      else say("Select two outlines that touch, or a junction with two pipes.");
    },
    takeOut: (grip) => tryEdit(context, "Take a corner out", (doc) => removePoint(doc, grip), { select: false }),
    putIn: ({ id, place, ring, index, at }) => tryEdit(context, "Add a corner", (doc) => insertPoint(doc, id, place, ring, place === "via" ? index : index + 1, at), { select: false }),
  };
}
