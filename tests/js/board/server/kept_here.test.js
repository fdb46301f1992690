import assert from "node:assert/strict";
import { test } from "node:test";

import { fingerprint } from "../../../../static/js/board/server/fingerprint.js";
import { createKeptHere, judgeKept, LINGER_MS } from "../../../../static/js/board/server/kept_here.js";
import { fakeStorage } from "./fakes.js";

const DRAWING = { document: { a: 1, b: [2, { c: 3 }] }, began_from: 3, draft_version: 7, name: "Front" };

test("what is kept comes back with its time, by site and person", () => {
  const storage = fakeStorage();
  const now = () => new Date("2026-03-04T10:31:00Z");
  const kept = createKeptHere({ storage, site_id: 4, person_id: 2, now });
  assert.equal(kept.put(DRAWING), true);
  assert.deepEqual(kept.read(), { ...DRAWING, kept_at: "2026-03-04T10:31:00.000Z" });
  assert.equal(createKeptHere({ storage, site_id: 5, person_id: 2 }).read(), null);
  assert.equal(createKeptHere({ storage, site_id: 4, person_id: 3 }).read(), null);
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
    storage.kept.set("trenchbook.board.1.2", text);
    assert.equal(createKeptHere({ storage, site_id: 1, person_id: 2 }).read(), null);
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

test("a copy whose forerunner was on its way follows what the server made of that", () => {
  const sent = { a: 1, b: 2 };
  const served = { ...DRAWING, document: { b: 2, a: 1 }, draft_version: 8 };
  assert.equal(judgeKept({ ...DRAWING, sent: [fingerprint({ a: 0 }), fingerprint(sent)] }, served), "take");
  assert.equal(judgeKept({ ...DRAWING, sent: [fingerprint({ a: 0 })] }, served), "ask");
  assert.equal(judgeKept({ ...DRAWING, sent: 3 }, served), "ask");
});

test("a saved copy is taken for a page from just before the save, and dropped for all others", () => {
  const now = Date.parse("2026-03-04T10:31:10Z");
  const saved = { ...DRAWING, draft_version: 8, is_saved: true, kept_at: "2026-03-04T10:31:00Z" };
  const older = { ...DRAWING, document: { a: 0 }, draft_version: 7 };
  assert.equal(judgeKept(saved, older, now), "take");
  assert.equal(judgeKept(saved, older, now + LINGER_MS), "drop");
  assert.equal(judgeKept(saved, { ...older, draft_version: 9 }, now), "drop");
  assert.equal(judgeKept(saved, { ...older, began_from: 4 }, now), "drop");
  assert.equal(judgeKept({ ...saved, kept_at: "" }, older, now), "drop");
});

test("fingerprints tell documents apart, whatever the order of their names", () => {
  assert.equal(fingerprint({ a: 1, b: [2] }), fingerprint({ b: [2], a: 1 }));
  assert.equal(new Set([{ a: 1 }, { a: 2 }, { b: 1 }, { a: [1] }, {}].map(fingerprint)).size, 5);
});
