import assert from "node:assert/strict";
import { test } from "node:test";

import { createGestures } from "../../../../static/js/board/map/gestures.js";
import { fakeClock } from "../server/fakes.js";

function hand() {
  const timers = fakeClock();
  const told = [];
  let now = 0;
  const gestures = createGestures({
    ...timers, clock: () => now, emit: (kind, event) => told.push(event.pressed ? `${kind} pressed` : kind),
  });
  return { gestures, told, timers, wait: (ms) => { now += ms; } };
}

const mouse = (x, y = 0) => ({ pointer: 1, kind: "mouse", touch: false, pixel: [x, y], at: [x, y] });
const finger = (pointer, x, y = 0) => ({ pointer, kind: "touch", touch: true, pixel: [x, y], at: [x, y] });

test("a press that hardly moves is a click, a second one soon after a double", () => {
  const { gestures, told, wait } = hand();
  gestures.down(mouse(10));
  gestures.move(mouse(12));
  gestures.up(mouse(12));
  wait(200);
  gestures.down(mouse(12));
  gestures.up(mouse(12));
  wait(200);
  gestures.down(mouse(12));
  gestures.up(mouse(12));
  assert.deepEqual(told, ["down", "up", "click", "down", "up", "double", "down", "up", "click"]);
});

test("a drag brings pressed moves and no click; hovering brings plain moves", () => {
  const { gestures, told } = hand();
  gestures.move(mouse(0));
  gestures.down(mouse(0));
  gestures.move(mouse(9));
  gestures.up(mouse(9));
  assert.deepEqual(told, ["move", "down", "move pressed", "up"]);
});

test("a second finger takes over: what the first began is cancelled", () => {
  const { gestures, told } = hand();
  gestures.down(finger(1, 0));
  gestures.move(finger(1, 4));
  gestures.down(finger(2, 80));
  gestures.move(finger(1, 40));
  gestures.up(finger(2, 80));
  gestures.up(finger(1, 40));
  assert.deepEqual(told, ["down", "cancel"]);
  gestures.down(finger(3, 5));
  gestures.up(finger(3, 5));
  assert.deepEqual(told.slice(2), ["down", "up", "click"]);
});

test("a finger that rests is long, and no click; one that moves is not", async () => {
  const { gestures, told, timers } = hand();
  gestures.down(finger(1, 0));
  await timers.pass(600);
  gestures.up(finger(1, 0));
  assert.deepEqual(told, ["down", "long", "up"]);
  gestures.down(finger(2, 0));
  gestures.move(finger(2, 30));
  await timers.pass(600);
  gestures.up(finger(2, 30));
  assert.deepEqual(told.slice(3), ["down", "move pressed", "up"]);
});

test("a pointer that the system takes away changes nothing", () => {
  const { gestures, told } = hand();
  gestures.down(finger(1, 0));
  gestures.lost(finger(1, 0));
  gestures.move(mouse(3));
  assert.deepEqual(told, ["down", "cancel", "move"]);
  assert.equal(gestures.fingers(), 0);
});
