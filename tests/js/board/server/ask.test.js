import assert from "node:assert/strict";
import { test } from "node:test";

import { createAsk, pageToken } from "../../../../static/js/board/server/ask.js";
import { fakeClock } from "./fakes.js";

function answer(status, body, { type = "application/json", redirected = false } = {}) {
  return {
    status, redirected, ok: status >= 200 && status < 300,
    headers: { get: () => type },
    json: async () => JSON.parse(body),
  };
}

function asking(fetch, more = {}) {
  return createAsk({ fetch, token: () => "secret", ...fakeClock(), ...more });
}

async function kindOf(response) {
  try {
    await asking(async () => response)("/check/", {});
  } catch (failure) {
    return `${failure.kind}: ${failure.message}`;
  }
  return "no failure";
}

test("sends JSON with the page's token and gives the answer", async () => {
  let sent = null;
  const ask = asking(async (url, options) => {
    sent = { url, ...options };
    return answer(200, '{"valid": true}');
  });
  assert.deepEqual(await ask("/check/", { n: 1 }), { valid: true });
  assert.equal(sent.url, "/check/");
  assert.equal(sent.body, '{"n":1}');
  assert.equal(sent.headers["X-CSRFToken"], "secret");
});

test("tells apart what went wrong", async () => {
  assert.match(await kindOf(answer(422, '{"detail": "Too large."}')), /^refused: Too large\.$/);
  assert.match(await kindOf(answer(409, '{"detail": "Changed."}')), /^refused: Changed\.$/);
  assert.match(await kindOf(answer(500, "", { type: "text/html" })), /^server:/);
  assert.match(await kindOf(answer(403, "", { type: "text/html" })), /^stale_page:/);
  assert.match(await kindOf(answer(404, "", { type: "text/html" })), /^gone:/);
  assert.match(await kindOf(answer(200, "", { type: "text/html", redirected: true })), /^logged_out:/);
});

test("no network is offline, silence is slow, a newer question drops this one", async () => {
  const offline = asking(async () => {
    throw new TypeError("Failed to fetch");
  });
  await assert.rejects(offline("/x/", {}), { kind: "offline" });

  const never = (url, { signal }) => new Promise((_, reject) => {
    signal.addEventListener("abort", () => reject(new Error("aborted")));
  });
  const clock = fakeClock();
  const slow = asking(never, clock)("/x/", {});
  const failed = assert.rejects(slow, { kind: "slow" });
  await clock.pass(20000);
  await failed;

  const stop = new AbortController();
  const dropped = assert.rejects(asking(never)("/x/", {}, { signal: stop.signal }), { kind: "dropped" });
  stop.abort();
  await dropped;
});

test("the token is the one that the page's forms send", () => {
  const body = { getAttribute: () => '{"X-CSRFToken": "abc"}' };
  assert.equal(pageToken({ body }), "abc");
  assert.equal(pageToken({ body: { getAttribute: () => null }, cookie: "" }), "");
});

test("after a login in another tab the token is the cookie's", () => {
  const body = { getAttribute: () => '{"X-CSRFToken": "old"}' };
  assert.equal(pageToken({ body, cookie: "theme=dark; csrftoken=new" }), "new");
  assert.equal(pageToken({ body, cookie: "notcsrftoken=other" }), "old");
});
