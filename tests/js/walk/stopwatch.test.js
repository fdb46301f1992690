import assert from "node:assert/strict";
import { test } from "node:test";

import { STILL, elapsedSeconds, isRunning, turn, written } from "../../../static/js/walk/stopwatch.js";

test("it stands, runs and keeps each time", () => {
  assert.equal(isRunning(STILL), false);
  assert.equal(elapsedSeconds(STILL, 5000), 0);
  const running = turn(STILL, 1000);
  assert.equal(isRunning(running), true);
  assert.equal(elapsedSeconds(running, 13_400), 12.4);
  const stopped = turn(running, 25_000);
  assert.deepEqual(stopped.runs_s, [24]);
  const again = turn(turn(stopped, 30_000), 54_500);
  assert.deepEqual(again.runs_s, [24, 24.5]);
});

test("a clock set back gives no negative time", () => {
  assert.equal(elapsedSeconds(turn(STILL, 5000), 4000), 0);
});

test("a state is never changed", () => {
  turn(turn(STILL, 0), 1000);
  assert.deepEqual(STILL, { began_ms: null, runs_s: [] });
});

test("times are written to the tenth", () => {
  assert.equal(written(24), "24.0 s");
  assert.equal(written(12.449), "12.4 s");
  assert.equal(written(12.45), "12.5 s");
});
