import assert from "node:assert/strict";
import { test } from "node:test";

import { AskFailed } from "../../../../static/js/board/server/ask_failed.js";
import { createLiveCheck } from "../../../../static/js/board/server/live_check.js";
import { fakeClock, fakeServer, settled } from "./fakes.js";

function opened() {
  const clock = fakeClock();
  const server = fakeServer();
  const [shown, states] = [[], []];
  const live = createLiveCheck({
    ...clock, ask: server.ask, url: "/check/", figures: "first",
    show: (answer) => shown.push(answer), tell: (state) => states.push(state),
  });
  return { live, clock, server, shown, states, last: () => states.at(-1).name };
}

test("changes within the pause are checked once, as they ended", async () => {
  const { live, clock, server, last } = opened();
  for (const n of [1, 2, 3]) live.changed({ n });
  assert.equal(last(), "stale");
  await clock.pass(149);
  assert.equal(server.questions.length, 0);
  await clock.pass(1);
  assert.deepEqual(server.questions.map(({ body }) => body), [{ document: { n: 3 }, before: "first" }]);
});

test("an answer to an older drawing never shows, even when it comes last", async () => {
  const { live, clock, server, shown, last } = opened();
  live.changed({ n: 1 });
  await clock.pass(150);
  live.changed({ n: 2 });
  await clock.pass(150);
  server.questions[1].answer({ says: 2, figures: "second" });
  await settled();
  server.questions[0].answer({ says: 1, figures: "old" });
  await settled();
  assert.deepEqual(shown.map(({ says }) => says), [2]);
  assert.equal(last(), "fresh");
  assert.ok(server.questions[0].signal.aborted);
});

test("an answer that comes after the next stroke does not count", async () => {
  const { live, clock, server, shown, last } = opened();
  live.changed({ n: 1 });
  await clock.pass(150);
  live.changed({ n: 2 });
  server.questions[0].answer({ says: 1 });
  await settled();
  assert.deepEqual(shown, []);
  assert.equal(last(), "stale");
});

test("each question carries the figures of the last answer that was shown", async () => {
  const { live, clock, server } = opened();
  live.changed({ n: 1 });
  await clock.pass(150);
  server.questions[0].answer({ figures: { H1: 2.9 } });
  await settled();
  live.changed({ n: 2 });
  await clock.pass(150);
  assert.deepEqual(server.questions[1].body.before, { H1: 2.9 });
});

test("without a connection it says that the figures are old, and asks again", async () => {
  const { live, clock, server, states, last } = opened();
  live.changed({ n: 1 });
  await clock.pass(150);
  server.questions[0].refuse(new AskFailed("offline"));
  await settled();
  assert.equal(last(), "failed");
  assert.match(states.at(-1).sentence, /from before your last change/);
  await clock.pass(2000);
  assert.equal(server.questions.length, 2);
});

test("what the server refuses is not asked again by itself", async () => {
  const { live, clock, server } = opened();
  live.changed({ n: 1 });
  await clock.pass(150);
  server.questions[0].refuse(new AskFailed("refused", { status: 413, data: { detail: "Too large." } }));
  await clock.pass(600000);
  assert.equal(server.questions.length, 1);
});
