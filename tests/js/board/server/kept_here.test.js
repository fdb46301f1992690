import assert from "node:assert/strict";
import { test } from "node:test";

import { createKeptHere, judgeKept } from "../../../../static/js/board/server/kept_here.js";
import { fakeStorage } from "./fakes.js";

const DRAWING = { document: { a: 1, b: [2, { c: 3 }] }, began_from: 3, draft_version: 7, name: "Front" };

test("what is kept comes back with its time, by site", () => {
  const storage = fakeStorage();
  const now = () => new Date("2026-03-04T10:31:00Z");
  const kept = createKeptHere({ storage, site_id: 4, now });
  assert.equal(kept.put(DRAWING), true);
  assert.deepEqual(kept.read(), { ...DRAWING, kept_at: "2026-03-04T10:31:00.000Z" });
  assert.equal(createKeptHere({ storage, site_id: 5 }).read(), null);
  kept.clear();
  assert.equal(kept.read(), null);
});

test("a browser that is full, or that keeps nothing, is no error", () => {
  assert.equal(createKeptHere({ storage: fakeStorage({ full: true }), site_id: 1 }).put(DRAWING), false);
  const broken = createKeptHere({ storage: null, site_id: 1 });
  assert.equal(broken.put(DRAWING), false);
  assert.equal(broken.read(), null);
  broken.clear();
});

test("what is kept but makes no sense is nothing", () => {
  for (const text of ["{", "null", "3", '{"document": null}', '{"document": "x"}']) {
    const storage = fakeStorage();
    storage.kept.set("trenchbook.board.1", text);
    assert.equal(createKeptHere({ storage, site_id: 1 }).read(), null);
  }
});

test("a copy that follows the server's draft is taken over, one that does not is offered", () => {
  const served = { ...DRAWING, document: { a: 0 } };
  assert.equal(judgeKept(DRAWING, served), "take");
  assert.equal(judgeKept(DRAWING, { ...served, draft_version: 8 }), "ask");
  assert.equal(judgeKept(DRAWING, { ...served, began_from: 4 }), "ask");
});

test("a copy that says the same, in whatever order of names, is dropped", () => {
  assert.equal(judgeKept(null, DRAWING), "drop");
  assert.equal(judgeKept(DRAWING, { ...DRAWING, document: { b: [2, { c: 3 }], a: 1 }, draft_version: 8 }), "drop");
});
