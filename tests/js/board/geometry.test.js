// Plane geometry. Figures without a source beside them follow from Pythagoras, or from the definition of a bearing.

import assert from "node:assert/strict";
import { test } from "node:test";

import * as g from "../../../static/js/board/plan/geometry.js";

const near = (a, b, within = 1e-9) => assert.ok(Math.abs(a - b) <= within, `${a} is not ${b}`);
const SQUARE = [[0, 0], [10, 0], [10, 10], [0, 10]];

test("a bearing is counted clockwise from north, from 0 up to 360", () => {
  const compass = [[[0, 1], 0], [[1, 1], 45], [[1, 0], 90], [[0, -1], 180], [[-1, 0], 270], [[-1, 1], 315]];
  for (const [to, deg] of compass) near(g.bearingDeg([0, 0], to), deg);
  assert.ok(Object.is(g.bearingDeg([0, 0], [0, 5]), 0));
});

test("a point at a bearing and a distance is found again by both", () => {
  for (const deg of [0, 33, 90, 181.5, 270, 359]) {
    const at = g.pointAt([3, -2], deg, 7.5);
    near(g.distance([3, -2], at), 7.5);
    near(g.bearingDeg([3, -2], at), deg, 1e-7);
  }
});

test("turning goes clockwise: north becomes east", () => {
  const [x, y] = g.rotate([5, 9], [5, 5], 90);
  near(x, 9);
  near(y, 5);
});

test("angles are written from 0 up to 360, without a negative zero or a rounding just short of the full turn", () => {
  for (const [deg, tidy] of [[360, 0], [-90, 270], [359.9999999, 0], [-1e-12, 0], [725, 5], [-0, 0], [89.99999999, 90]]) {
    assert.ok(Object.is(g.tidyDeg(deg), tidy), `${deg} gave ${g.tidyDeg(deg)}`);
  }
});

test("places fall on the grid of a millimetre, and not beyond where a plan reaches", () => {
  assert.deepEqual(g.placed([1.23456, -0.0001]), [1.235, 0]);
  assert.ok(Object.is(g.placed([1, -0.0001])[1], 0));
  assert.throws(() => g.placed([5000.01, 0]), /5000 m/);
  assert.throws(() => g.placed([NaN, 0]), /5000 m/);
});

// Shoelace formula, worked: the triangle with legs 3 and 4 has 6, an L of 10 x 10 less 4 x 6 has 76.
test("areas of rings, whichever way round", () => {
  near(g.ringArea([[0, 0], [3, 0], [0, 4]]), 6);
  const ell = [[0, 0], [10, 0], [10, 4], [6, 4], [6, 10], [0, 10]];
  near(g.ringArea(ell), 76);
  near(g.ringArea([...ell].reverse()), 76);
  near(g.signedArea([...ell].reverse()), -76);
});

test("a place inside a ring really is inside, also in a horseshoe", () => {
  const shoe = [[0, 0], [10, 0], [10, 10], [8, 10], [8, 2], [2, 2], [2, 10], [0, 10]];
  assert.ok(g.insideRing(g.placeInside(shoe), shoe));
  assert.ok(!g.insideRing([5, 6], shoe));
});

test("the nearest point of a segment is its end where the foot lies beyond", () => {
  assert.deepEqual(g.pointOnSegment([5, 3], [0, 0], [10, 0]), { at: [5, 0], distance_m: 3, along: 0.5 });
  assert.deepEqual(g.pointOnSegment([13, 4], [0, 0], [10, 0]), { at: [10, 0], distance_m: 5, along: 1 });
});

test("a line tells how far along its nearest point lies", () => {
  const found = g.nearestOnPath([11, 4], [[0, 0], [10, 0], [10, 10]]);
  assert.deepEqual([found.at, found.segment, found.walked_m, found.distance_m], [[10, 4], 1, 14, 1]);
});

test("segments meet or do not, lines do unless they are parallel", () => {
  assert.deepEqual(g.segmentsMeet([0, 0], [4, 4], [0, 4], [4, 0]).at, [2, 2]);
  assert.equal(g.segmentsMeet([0, 0], [1, 1], [0, 4], [4, 0]), null);
  assert.deepEqual(g.linesMeet([0, 0], [1, 1], [0, 4], [4, 0]).at, [2, 2]);
  assert.equal(g.linesMeet([0, 0], [1, 0], [0, 1], [5, 1]), null);
});

test("a ring that crosses, touches or folds back on itself is found", () => {
  assert.equal(g.selfCrossing(SQUARE), null);
  assert.deepEqual(g.selfCrossing([[0, 0], [10, 10], [10, 0], [0, 10]]), [5, 5]);
  assert.deepEqual(g.selfCrossing([[0, 0], [10, 0], [10, 10], [5, 0], [0, 10]]), [5, 0]);
  assert.ok(g.selfCrossing([[0, 0], [10, 0], [10, 10], [10, -5]]));
});

test("a leg is set square to an edge or in line with it, whichever is nearer", () => {
  assert.deepEqual(g.squareTo([0, 0], [1, 7], [0, 0], [5, 0]), [0, 7]);
  assert.deepEqual(g.squareTo([0, 0], [7, 1], [0, 0], [5, 0]), [7, 0]);
});
