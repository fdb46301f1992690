// Hundreds of edits in random order: what must hold after each, and that undo leads all the way back.

import assert from "node:assert/strict";
import { test } from "node:test";

import { createStore } from "../../../static/js/board/history.js";
import { faults } from "../../../static/js/board/plan/faults.js";
import { GROUPS, listOf } from "../../../static/js/board/plan/groups.js";
import { find, supplyNode } from "../../../static/js/board/plan/lookup.js";
import { demoPlan } from "./support/plans.js";
import { walker } from "./support/walk.js";

const STEPS = 400;
const SHAPE = /crosses or touches itself|outside the outline|encloses nothing|shorter than|different/;

function checkInvariants(doc, told) {
  const ids = GROUPS.flatMap((group) => listOf(doc, group)).map((entity) => entity.id).filter(Boolean);
  assert.equal(new Set(ids).size, ids.length, `${told}: an id twice`);
  for (const pipe of [...listOf(doc, "pipes"), ...listOf(doc, "cables")]) {
    for (const end of [pipe.from, pipe.to]) assert.equal(find(doc, end)?.group, "nodes", `${told}: ${pipe.id} ends nowhere`);
    assert.notEqual(pipe.from, pipe.to, told);
  }
  assert.deepEqual(supplyNode(doc).at, doc.supply.at, told);
  checkFigures(doc, told);
  const wrong = faults(doc).filter((fault) => !SHAPE.test(fault.sentence));
  assert.deepEqual(wrong, [], told);
}

function checkFigures(doc, told) {
  for (const node of listOf(doc, "nodes")) {
    for (const value of node.at) assert.equal(value, Math.round(value * 1000) / 1000, told);
    if (node.from_deg !== undefined) assert.ok(node.from_deg >= 0 && node.from_deg < 360 && !Object.is(node.from_deg, -0), told);
    if (node.sweep_deg !== undefined) assert.ok(node.sweep_deg > 0 && node.sweep_deg <= 360, told);
  }
}

for (const [seed, name] of [[1, "plain-rectangle"], [2, "quince-house"], [3, "ferry-lane"], [4, "quince-house"]]) {
  test(`${STEPS} edits of ${name} from seed ${seed} keep a document whole and can all be undone`, () => {
    const edited = walker(seed);
    const first = demoPlan(name);
    const store = createStore(first);
    const kinds = new Set();
    for (let i = 0; i < STEPS; i += 1) {
      const { doc, kind } = edited(store.document);
      if (doc !== store.document) kinds.add(kind);
      store.apply(kind, doc);
      checkInvariants(store.document, `seed ${seed}, step ${i}, ${kind}`);
    }
    const last = store.document;
    assert.ok(kinds.size > 20, `only ${[...kinds]}`);
    while (store.undo()) checkInvariants(store.document, "undo");
    assert.equal(store.document, first);
    while (store.redo());
    assert.equal(store.document, last);
  });
}
