import assert from "node:assert/strict";
import test from "node:test";

import { choose, click, close } from "../../../static/js/trace/modes.js";

const EMPTY = {
  trace: { scale: null, check: null, known: [], slanted: false, outlines: [] },
  mode: "look", current: null, point: "", becomes: { becomes: "area", kind: "turf" },
};

function clicks(state, ...places) {
  return places.reduce((now, at) => click(now, at), state);
}

test("two clicks make a scale, and then the picture moves again", () => {
  const state = clicks(choose(EMPTY, "scale"), [1, 1], [9, 1]);
  assert.deepEqual([state.trace.scale.first_px, state.trace.scale.second_px], [[1, 1], [9, 1]]);
  assert.equal(state.mode, "look");
});

test("marking a scale again begins at its first point", () => {
  let state = clicks(choose(EMPTY, "scale"), [1, 1], [9, 1]);
  state = click(choose(state, "scale"), [2, 2]);
  assert.deepEqual(state.trace.scale.first_px, [2, 2]);
  assert.equal(state.trace.scale.second_px, null);
});

test("an outline ends on its first corner, from three corners on", () => {
  let state = clicks(choose(EMPTY, "outline"), [0, 0], [10, 0]);
  const first = { part: "outline", id: state.current, index: 0, at: [0, 0] };
  assert.equal(click(state, [0, 0], first).mode, "outline");
  state = click(click(state, [10, 10]), [0.4, 0.3], first);
  assert.equal(state.mode, "look");
  assert.equal(state.trace.outlines[0].pixels.length, 3);
});

test("a click on another handle sets the corner at its very place", () => {
  const state = clicks(choose(EMPTY, "outline"), [0, 0]);
  const handle = { part: "scale", id: "scale", index: 1, at: [7, 7] };
  assert.deepEqual(click(state, [7.4, 6.8], handle).trace.outlines[0].pixels[1], [7, 7]);
});

test("two taps on one place are one corner", () => {
  const state = clicks(choose(EMPTY, "outline"), [0, 0], [5, 5], [5, 5]);
  assert.equal(state.trace.outlines[0].pixels.length, 2);
});

test("choosing the same thing again leaves it", () => {
  assert.equal(choose(choose(EMPTY, "check"), "check").mode, "look");
  assert.equal(close(choose(EMPTY, "outline")).mode, "look");
});

test("the next outline is a new one", () => {
  let state = close(clicks(choose(EMPTY, "outline"), [0, 0], [9, 0], [9, 9]));
  state = click(choose(state, "outline"), [20, 20]);
  assert.equal(state.trace.outlines.length, 2);
});

test("a known point needs its name", () => {
  const state = choose(EMPTY, "known");
  assert.equal(click(state, [1, 1]), state);
  assert.deepEqual(click({ ...state, point: "P1" }, [1, 1]).trace.known, [{ point: "P1", at_px: [1, 1] }]);
});

test("looking at the picture, a click on a corner chooses its outline and changes nothing", () => {
  const drawn = close(clicks(choose(EMPTY, "outline"), [0, 0], [9, 0], [9, 9]));
  const state = click({ ...drawn, current: null }, [9, 0], { part: "outline", id: "o1", index: 1, at: [9, 0] });
  assert.equal(state.current, "o1");
  assert.equal(state.trace, drawn.trace);
});
