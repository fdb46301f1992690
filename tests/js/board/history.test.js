import assert from "node:assert/strict";
import { test } from "node:test";

import { createStore } from "../../../static/js/board/history.js";
import { moveAll, removeAll } from "../../../static/js/board/plan/edits.js";
import { rowPlan } from "./support/plans.js";

const moved = (store, by) => moveAll(store.document, ["H1"], by, 0).doc;

test("each step has a name and can be undone and done again", () => {
  const first = rowPlan();
  const store = createStore(first);
  assert.deepEqual([store.canUndo, store.canRedo, store.undoName, store.undo()], [false, false, "", false]);
  store.apply("Move H1", moved(store, 1));
  const second = store.document;
  store.apply("Remove H2", removeAll(store.document, ["H2"]).doc);
  assert.equal(store.undoName, "Remove H2");
  assert.ok(store.undo());
  assert.equal(store.document, second);
  assert.deepEqual([store.undoName, store.redoName], ["Move H1", "Remove H2"]);
  store.undo();
  assert.equal(store.document, first);
  store.redo();
  assert.equal(store.document, second);
});

test("the same document is no step, a new step forgets what was undone", () => {
  const store = createStore(rowPlan());
  store.apply("Nothing", store.document);
  assert.equal(store.canUndo, false);
  store.apply("Move", moved(store, 1));
  store.undo();
  store.apply("Nothing", store.document);
  assert.equal(store.canRedo, true);
  store.apply("Move", moved(store, 2));
  assert.equal(store.canRedo, false);
});

test("a drag is one step until it is let go", () => {
  const first = rowPlan();
  const store = createStore(first);
  for (const by of [1, 1, 1]) store.apply("Move", moved(store, by), { merge: "drag" });
  store.seal();
  store.apply("Move", moved(store, 1), { merge: "drag" });
  store.undo();
  assert.equal(store.document.layout.nodes[2].at[0], 7);
  store.undo();
  assert.equal(store.document, first);
  assert.equal(store.canUndo, false);
});

test("another step, or undo, ends a drag; a drag back to where it began is no step", () => {
  const store = createStore(rowPlan());
  store.apply("Move", moved(store, 1), { merge: "a" });
  store.apply("Move", moved(store, 1), { merge: "b" });
  store.undo();
  store.apply("Move", moved(store, 5), { merge: "a" });
  store.undo();
  assert.equal(store.document.layout.nodes[2].at[0], 5);
  const before = store.document;
  store.apply("Move", moved(store, 3), { merge: "c" });
  store.apply("Move", before, { merge: "c" });
  assert.equal(store.undoName, "Move");
  store.undo();
  assert.equal(store.document.layout.nodes[2].at[0], 4);
});

test("what no longer exists drops out of the selection", () => {
  const store = createStore(rowPlan());
  const told = [];
  store.on("selection", (ids) => told.push([...ids]));
  store.select(["H1", "H2", "H2", "nothing"]);
  store.select(["H1", "H2"]);
  store.apply("Remove", removeAll(store.document, ["H2"]).doc);
  store.apply("Move", moved(store, 1), { select: ["H1", "P1"] });
  store.undo();
  assert.deepEqual(told, [["H1", "H2"], ["H1"], ["H1", "P1"]]);
  assert.deepEqual(store.selection, ["H1", "P1"]);
});

test("listeners hear of each change once, until they leave", () => {
  const store = createStore(rowPlan());
  const told = [];
  const off = store.on("document", ({ name, document, before }) => told.push([name, document === store.document, before !== document]));
  store.apply("Move", moved(store, 1));
  store.apply("Nothing", store.document);
  store.undo();
  off();
  store.redo();
  assert.deepEqual(told, [["Move", true, true], ["Move", true, true]]);
});

test("another version that is taken over can be undone", () => {
  const first = rowPlan();
  const store = createStore(first);
  const other = structuredClone(first);
  store.replace(other);
  assert.equal(store.document, other);
  store.undo();
  assert.equal(store.document, first);
});
