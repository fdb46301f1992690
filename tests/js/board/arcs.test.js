import assert from "node:assert/strict";
import { test } from "node:test";

import { arcHandles, sectorPoints, turnArc } from "../../../static/js/board/plan/arcs.js";
import { ringArea } from "../../../static/js/board/plan/geometry.js";
import { find } from "../../../static/js/board/plan/lookup.js";
import { rowPlan } from "./support/plans.js";

const arcOf = ({ doc }) => {
  const { from_deg, sweep_deg, reach_m } = find(doc, "H1").entity;
  return [from_deg, sweep_deg, reach_m];
};
const turned = (handle, to, options) => turnArc(rowPlan(), "H1", handle, to, options); // H1 at (4, 0), from 0 through 180

test("the handles lie at both ends of the arc and in its middle", () => {
  assert.deepEqual(arcHandles({ at: [4, 0], from_deg: 0, sweep_deg: 180 }, 5), { from: [4, 5], to: [4, -5], reach: [9, 0] });
  assert.deepEqual(arcHandles({ at: [0, 0] }, 2), { from: [0, 2], to: [0, 2], reach: [0, -2] });
});

test("an end is moved and the other stays", () => {
  assert.deepEqual(arcOf(turned("from", [9, 0])), [90, 90, undefined]);
  assert.deepEqual(arcOf(turned("to", [9, 0])), [0, 90, undefined]);
  assert.deepEqual(arcOf(turned("from", [-1, 0])), [270, 270, undefined]);
});

test("ends that meet make a full circle", () => {
  assert.deepEqual(arcOf(turned("to", [4, 7])), [0, 360, undefined]);
  assert.deepEqual(arcOf(turned("from", [4, -7])), [180, 360, undefined]);
});

test("the middle sets the throw, or turns the whole", () => {
  assert.deepEqual(arcOf(turned("reach", [7, 4])), [0, 180, 5]);
  assert.deepEqual(arcOf(turned("reach", [104, 0])), [0, 180, 60]);
  assert.deepEqual(arcOf(turned("turn", [4, 9])), [270, 180, undefined]);
});

test("angles come in steps, and what changes nothing is no change", () => {
  assert.deepEqual(arcOf(turned("to", [9, 0.13], { step_deg: 5 })), [0, 90, undefined]);
  const plan = rowPlan();
  assert.equal(turnArc(plan, "H1", "to", [4, -9]).doc, plan);
  assert.equal(turnArc(plan, "H1", "to", [4, 0]).doc, plan);
  assert.throws(() => turnArc(rowPlan(), "V1", "to", [1, 1]), /only a head/);
});

// Area of a sector: r² times half its angle.
test("a sector of points has the area of the sector, less what its chords cut off", () => {
  for (const sweep of [10, 90, 225, 360]) {
    const area_m2 = (Math.PI * 36 * sweep) / 360;
    const drawn = ringArea(sectorPoints([3, 4], 6, 300, sweep));
    assert.ok(drawn < area_m2 && drawn > 0.998 * area_m2, `${sweep}: ${drawn} of ${area_m2}`);
  }
});

test("a quarter begins at its head, runs clockwise and ends at the other edge", () => {
  const points = sectorPoints([0, 0], 10, 0, 90);
  assert.deepEqual(points[0], [0, 0]);
  assert.deepEqual(points[1].map(Math.round), [0, 10]);
  assert.deepEqual(points.at(-1).map(Math.round), [10, 0]);
});
