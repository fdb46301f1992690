import assert from "node:assert/strict";
import { test } from "node:test";

import { AskFailed } from "../../../../static/js/board/server/ask_failed.js";
import { createAutosave } from "../../../../static/js/board/server/autosave.js";
import { createKeptHere, LINGER_MS } from "../../../../static/js/board/server/kept_here.js";
import { fakeClock, fakeServer, fakeStorage, settled } from "./fakes.js";

const URL = "/draft/";
const SERVED = { document: { n: 0 }, began_from: 3, draft_version: 7, name: "Front", saved_at: null, person: 5 };

function opened({ full = false } = {}) {
  const clock = fakeClock();
  const server = fakeServer();
  const storage = fakeStorage({ full });
  const kept = createKeptHere({ storage, site_id: 1 });
  const states = [];
  const autosave = createAutosave({ ...clock, ask: server.ask, url: URL, kept, drawing: SERVED, tell: (state) => states.push(state) });
  return { autosave, clock, kept, server, storage, states, last: () => states.at(-1) };
}

const good = (draft_version) => ({ draft_version, saved_at: "2026-03-04T10:42:00" });

test("a change is saved after a pause, with the version that it began from", async () => {
  const { autosave, clock, server, last } = opened();
  autosave.changed({ n: 1 });
  assert.equal(last().name, "changed");
  await clock.pass(1000);
  assert.deepEqual(server.questions[0].body, { document: { n: 1 }, began_from: 3, draft_version: 7, name: "Front", person: 5 });
  assert.equal(last().sentence, "Saving…");
  server.questions[0].answer(good(8));
  await settled();
  assert.equal(last().sentence, "Saved 10:42");
});

test("never two saves at once: what came meanwhile follows with the new version", async () => {
  const { autosave, clock, server } = opened();
  autosave.changed({ n: 1 });
  await clock.pass(1000);
  autosave.changed({ n: 2 });
  await clock.pass(5000);
  assert.equal(server.questions.length, 1);
  server.questions[0].answer(good(8));
  await clock.pass(1000);
  assert.equal(server.questions.length, 2);
  assert.deepEqual(server.questions[1].body.document, { n: 2 });
  assert.equal(server.questions[1].body.draft_version, 8);
});

test("without a connection it stays in the browser, says so, and is tried with growing pauses", async () => {
  const { autosave, clock, server, kept, last } = opened();
  autosave.changed({ n: 1 });
  await clock.pass(1000);
  const pauses = [];
  for (let turn = 0; turn < 4; turn += 1) {
    server.questions.at(-1).refuse(new AskFailed("offline"));
    await settled();
    pauses.push(clock.waits()[0]);
    await clock.pass(pauses.at(-1));
  }
  assert.deepEqual(pauses, [2000, 4000, 8000, 15000]);
  server.questions.at(-1).refuse(new AskFailed("offline"));
  await settled();
  assert.equal(last().sentence, "Not saved: no connection. Kept in this browser; trying again.");
  assert.deepEqual(kept.read().document, { n: 1 });
});

test("when the connection comes back it saves at once and drops the browser's copy", async () => {
  const { autosave, clock, server, kept, last } = opened();
  autosave.changed({ n: 1 });
  await clock.pass(1000);
  server.questions[0].refuse(new AskFailed("offline"));
  await settled();
  autosave.retry();
  server.questions[1].answer(good(8));
  await settled();
  assert.equal(last().name, "saved");
  assert.deepEqual([kept.read().is_saved, kept.read().draft_version], [true, 8], "for a page that is older than the save");
  await clock.pass(LINGER_MS);
  assert.equal(kept.read(), null);
  assert.deepEqual(clock.waits(), []);
});

test("a save that was taken though its answer never came is no clash, in this page or after a reload", async () => {
  const first = opened();
  first.autosave.changed({ n: 1 });
  await first.clock.pass(1000);
  const left = first.kept.read();
  first.autosave.changed({ n: 2 });
  first.server.questions[0].refuse(new AskFailed("slow"));
  await first.clock.pass(2000);
  first.server.questions[1].refuse(new AskFailed("refused", { status: 409, data: { document: { n: 1 }, draft_version: 8 } }));
  await first.clock.pass(1000);
  assert.deepEqual([first.server.questions[2].body.document, first.server.questions[2].body.draft_version], [{ n: 2 }, 8]);

  const again = opened();
  again.autosave.follow(left);
  again.autosave.changed(left.document);
  await again.clock.pass(1000);
  again.server.questions[0].refuse(new AskFailed("refused", { status: 409, data: { document: { n: 1 }, draft_version: 8 } }));
  await again.clock.pass(1000);
  assert.equal(again.server.questions[1].body.draft_version, 8);
  again.server.questions[1].refuse(new AskFailed("refused", { status: 409, data: { document: { n: 99 }, draft_version: 9, saved_at: null } }));
  await settled();
  assert.equal(again.last().name, "clash", "another tab's drawing is asked about");
});

test("logged out says what to do, keeps the drawing and tries again", async () => {
  const { autosave, clock, server, kept, last } = opened();
  autosave.changed({ n: 1 });
  await clock.pass(1000);
  server.questions[0].refuse(new AskFailed("logged_out"));
  await settled();
  assert.match(last().sentence, /logged out.*another tab/);
  assert.ok(kept.read());
  assert.equal(clock.waits().length, 1);
});

test("what the server refuses is not sent again until it changes", async () => {
  const { autosave, clock, server, last } = opened();
  autosave.changed({ n: 1 });
  await clock.pass(1000);
  server.questions[0].refuse(new AskFailed("refused", { status: 422, data: { detail: "Too many heads." } }));
  await clock.pass(600000);
  assert.equal(server.questions.length, 1);
  assert.match(last().sentence, /Too many heads\. Kept in this browser\./);
  autosave.changed({ n: 2 });
  await clock.pass(1000);
  assert.equal(server.questions.length, 2);
});

const THEIRS = { detail: "Changed.", draft_version: 9, document: { n: 99 }, saved_at: "2026-03-04T11:00:00" };

async function clashed() {
  const all = opened();
  all.autosave.changed({ n: 1 });
  await all.clock.pass(1000);
  all.server.questions[0].refuse(new AskFailed("refused", { status: 409, data: THEIRS }));
  await settled();
  return all;
}

test("another tab's drawing stops saving until somebody chose", async () => {
  const { autosave, clock, server, kept, last } = await clashed();
  assert.equal(last().name, "clash");
  assert.deepEqual(last().theirs.document, { n: 99 });
  autosave.changed({ n: 2 });
  await clock.pass(600000);
  assert.equal(server.questions.length, 1);
  assert.deepEqual(kept.read().document, { n: 2 });
});

test("choosing what is here saves it over the other's version", async () => {
  const { autosave, server } = await clashed();
  autosave.resolve("mine");
  assert.equal(server.questions[1].body.draft_version, 9);
  assert.deepEqual(server.questions[1].body.document, { n: 1 });
});

test("choosing the other tab's takes its version, and nothing is sent", async () => {
  const { autosave, clock, server } = await clashed();
  autosave.resolve("theirs");
  autosave.changed(THEIRS.document);
  await clock.pass(600000);
  assert.equal(server.questions.length, 1);
  assert.ok(autosave.isClean());
});

test("going back to what is saved is as good as saved", async () => {
  const { autosave, clock, server, kept, last } = opened();
  autosave.changed({ n: 1 });
  autosave.changed(SERVED.document);
  await clock.pass(600000);
  assert.equal(server.questions.length, 0);
  assert.equal(last().name, "saved");
  assert.equal(kept.read(), null);
});

test("leaving the page writes down what the pause had not yet; it is at risk only where nothing is kept", () => {
  const { autosave, kept } = opened();
  autosave.changed({ n: 1 });
  assert.equal(kept.read(), null);
  assert.equal(autosave.isAtRisk(), false);
  assert.deepEqual(kept.read().document, { n: 1 });
  const other = opened({ full: true });
  assert.equal(other.autosave.isAtRisk(), false);
  other.autosave.changed({ n: 1 });
  assert.equal(other.autosave.isAtRisk(), true);
});

test("a browser that keeps nothing is told about while the server does not answer", async () => {
  const { autosave, clock, server, last } = opened({ full: true });
  autosave.changed({ n: 1 });
  await clock.pass(1000);
  server.questions[0].refuse(new AskFailed("server"));
  await settled();
  assert.match(last().sentence, /leave this page open/);
});

test("another tab that is met while keeping a revision stops saving as well", async () => {
  const { autosave, clock, server, last } = opened();
  autosave.meet(THEIRS);
  assert.equal(last().name, "clash");
  assert.ok(autosave.isClashing());
  autosave.changed({ n: 5 });
  await clock.pass(600000);
  assert.equal(server.questions.length, 0);
});
