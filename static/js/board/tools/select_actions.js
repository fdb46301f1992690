// What can be done to the selection: move, copy, turn, remove, join. Keys and buttons both come here.

import { copyAll, moveAll, removeAll, removePoint, turnAll, insertPoint } from "../plan/edits.js";
import { samePlace } from "../plan/geometry.js";
import { joinOutlines } from "../plan/ground_edits.js";
import { extentOf, find, pipesAt, everyId } from "../plan/lookup.js";
import { joinPipesAt } from "../plan/network_edits.js";
import { tryEdit } from "./try_edit.js";

const BESIDE_M = [1, -1];
const MOVED_M = 0.05;

const middleOf = ([west, south, east, north]) => [(west + east) / 2, (south + north) / 2];

/** How far copies lie from what they are copies of: their middle under the pointer, on whole centimetres. */
export function pasteOffset(extent, pointer, pointerThen) {
  if (!extent || !pointerThen || samePlace(pointer, pointerThen, MOVED_M)) return BESIDE_M;
  return middleOf(extent).map((middle, axis) => Math.round((pointer[axis] - middle) * 100) / 100);
}

export function createActions(context) {
  const { store, say, cross } = context;
  let copied = [];
  let copiedAt = null; // where the pointer was: a copy under an unmoved pointer would hide the first

  store.on("selection", () => store.seal());

  const chosen = () => store.selection;
  const none = () => (chosen().length ? false : (say("Select something first."), true));

  return {
    move([dx, dy]) {
      if (none()) return;
      tryEdit(context, "Move", (doc) => moveAll(doc, chosen(), dx, dy), { select: false, merge: `move ${chosen().join()}` });
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
      [copied, copiedAt] = [[...chosen()], cross.at];
      say(`${copied.length} copied. Ctrl+V puts the copy down where the pointer is.`);
    },
    /** Puts the copies down under the pointer or the keyboard's cross; beside the first where that has not moved. */
    paste() {
      const there = copied.filter((id) => find(store.document, id));
      if (!there.length) return say("Nothing is copied.");
      const by = pasteOffset(extentOf(store.document, there), cross.at, copiedAt);
      if (!this.copyBy(by, there)) return undefined;
      [copied, copiedAt] = [[...chosen()], cross.at];
      return say(`${copied.length} put down.`);
    },
    copyBy: ([dx, dy], ids) => tryEdit(context, "Copy", (doc) => copyAll(doc, ids, dx, dy)),
    turn(deg) {
      if (none()) return;
      tryEdit(context, "Turn", (doc) => turnAll(doc, chosen(), middleOf(extentOf(doc, chosen())), deg), { select: false });
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
