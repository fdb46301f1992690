import assert from "node:assert/strict";
import { test } from "node:test";

import { AskFailed } from "../../../../static/js/board/server/ask_failed.js";
import { createWetting } from "../../../../static/js/board/server/wetting.js";
import { fakeClock, fakeServer, settled } from "./fakes.js";

function opened() {
  const clock = fakeClock();
  const server = fakeServer();
  const states = [];
  const wetting = createWetting({ ...clock, ask: server.ask, url: "/wetting/", show: (state) => states.push(state) });
  return { clock, server, states, wetting };
}

test("nothing is asked while the layer is off", async () => {
  const { clock, server, wetting } = opened();
  wetting.changed({ n: 1 });
  await clock.pass(10000);
  assert.equal(server.questions.length, 0);
});

test("turned on it asks at once, then after each pause, and shows only the newest", async () => {
  const { clock, server, states, wetting } = opened();
  wetting.changed({ n: 1 });
  wetting.turn(true);
  for (const n of [2, 3]) wetting.changed({ n });
  server.questions[0].answer({ image: "old" });
  await clock.pass(600);
  assert.equal(server.questions.length, 2);
  assert.deepEqual(server.questions[1].body, { document: { n: 3 } });
  server.questions[1].answer({ image: "new" });
  await settled();
  assert.deepEqual(states.filter(({ answer }) => answer).map(({ answer }) => answer.image), ["new"]);
});

test("turned off, a late answer stays away; a refusal is said", async () => {
  const { server, states, wetting } = opened();
  wetting.changed({ n: 1 });
  wetting.turn(true);
  wetting.turn(false);
  server.questions[0].answer({ image: "late" });
  await settled();
  assert.equal(states.at(-1).name, "off");
  wetting.turn(true);
  server.questions[1].refuse(new AskFailed("refused", { status: 422, data: { detail: "No heads yet." } }));
  await settled();
  assert.deepEqual(states.at(-1), { name: "none", answer: null, sentence: "No heads yet." });
});
