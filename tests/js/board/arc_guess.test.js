// The arcs of the plain rectangle are those of its hand-made plan, tests/plans/s1.json: quarters in the corners,
// halves on the edges, all round inside. The other angles are plane geometry.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";

import { edgeBearings, guessArc, snapBearing } from "../../../static/js/board/tools/arc_guess.js";

const s1 = JSON.parse(readFileSync(new URL("../../plans/s1.json", import.meta.url)));
const lawn = (outline, holes = []) => ({ ground: { areas: [{ id: "a", outline, holes }] } });

test("every head of the plain rectangle gets the arc that it has in the hand-made plan", () => {
  const heads = s1.layout.nodes.filter((node) => node.kind === "head");
  assert.equal(heads.length, 15);
  for (const head of heads) {
    const { from_deg, sweep_deg, area } = guessArc(s1, head.at);
    assert.deepEqual({ sweep_deg, area }, { sweep_deg: head.sweep_deg, area: "lawn" }, head.id);
    if (sweep_deg < 360) assert.equal(from_deg, head.from_deg, head.id);
  }
});

test("the way round in which the outline was drawn makes no difference", () => {
  const square = [[0, 0], [10, 0], [10, 10], [0, 10]];
  for (const outline of [square, [...square].reverse()]) {
    assert.deepEqual(guessArc(lawn(outline), [0, 0]), { area: "a", from_deg: 0, sweep_deg: 90 });
    assert.deepEqual(guessArc(lawn(outline), [5, 10]), { area: "a", from_deg: 90, sweep_deg: 180 });
  }
});

test("a corner that points inwards gets its wide angle", () => {
  const letterL = lawn([[0, 0], [10, 0], [10, 5], [5, 5], [5, 10], [0, 10]]);
  assert.deepEqual(guessArc(letterL, [5, 5]), { area: "a", from_deg: 90, sweep_deg: 270 });
});

test("beside a hole the arc looks away from it", () => {
  const holed = lawn([[0, 0], [20, 0], [20, 20], [0, 20]], [[[8, 8], [12, 8], [12, 12], [8, 12]]]);
  assert.deepEqual(guessArc(holed, [10, 8]), { area: "a", from_deg: 90, sweep_deg: 180 });
  assert.equal(guessArc(holed, [8, 8]).sweep_deg, 270);
});

test("a head just off the edge stands on it; one far off waters no area", () => {
  const square = lawn([[0, 0], [10, 0], [10, 10], [0, 10]]);
  assert.deepEqual(guessArc(square, [5, -0.1]), { area: "a", from_deg: 270, sweep_deg: 180 });
  assert.deepEqual(guessArc(square, [5, -3]), { area: null, from_deg: 0, sweep_deg: 360 });
});

test("a head that throws all round keeps its circle on an edge", () => {
  const square = lawn([[0, 0], [10, 0], [10, 10], [0, 10]]);
  assert.deepEqual(guessArc(square, [5, 0], "full"), { area: "a", from_deg: 0, sweep_deg: 360 });
});

test("a dragged end jumps to the edge beside it, across north as well", () => {
  const square = lawn([[0, 0], [10, 0], [10, 10], [0, 10]]);
  assert.deepEqual(edgeBearings(square, [0, 0]).sort(), [0, 90]);
  assert.equal(snapBearing(357, [0, 90]), 0);
  assert.equal(snapBearing(93.4, [0, 90]), 90);
  assert.equal(snapBearing(47.6, [0, 90]), 48);
  assert.equal(snapBearing(359.7, []), 0);
});
