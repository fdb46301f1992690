import assert from "node:assert/strict";
import { test } from "node:test";

import { bearingDeg, fromMetres, toMetres, toPage } from "../../../static/js/photos/tap_to_metres.js";
import { readLength, writeLength } from "../../../static/js/photos/typed_length.js";

const VIEW = { x: 0, y: 0, width: 800, height: 600 };
// the map's west edge is at -2 m, its north edge at 18 m; 20 units to the metre, 26 in from left and top
const FRAME = { west: -2, north: 18, scale: 20, left: 26, top: 26 };

test("a tap on a drawing shown at half its size is at twice the way into it", () => {
  const box = { left: 100, top: 50, width: 400, height: 300 };
  assert.deepEqual(toPage({ x: 100, y: 50 }, box, VIEW), [0, 0]);
  assert.deepEqual(toPage({ x: 300, y: 200 }, box, VIEW), [400, 300]);
  assert.deepEqual(toPage({ x: 500, y: 350 }, box, VIEW), [800, 600]);
});

test("a box higher than the drawing leaves room above and below it", () => {
  const box = { left: 0, top: 0, width: 400, height: 500 };
  assert.deepEqual(toPage({ x: 0, y: 100 }, box, VIEW), [0, 0]);
  assert.deepEqual(toPage({ x: 400, y: 400 }, box, VIEW), [800, 600]);
});

test("a drawing that is not shown has no places", () => {
  assert.equal(toPage({ x: 1, y: 1 }, { left: 0, top: 0, width: 0, height: 0 }, VIEW), null);
});

test("the corner of the map is its west and north, and the page counts downwards", () => {
  assert.deepEqual(toMetres([26, 26], FRAME), [-2, 18]);
  assert.deepEqual(toMetres([66, 26], FRAME), [0, 18]);
  assert.deepEqual(toMetres([26, 66], FRAME), [-2, 16]);
});

test("there and back again is the same place", () => {
  for (const at of [[0, 0], [-2, 18], [13.37, 4.2], [-50, -50]]) {
    const back = toMetres(fromMetres(at, FRAME), FRAME);
    assert.ok(Math.hypot(back[0] - at[0], back[1] - at[1]) < 1e-9);
  }
});

test("bearings count clockwise from north, as on a compass", () => {
  const from = [10, 10];
  const expected = [[[10, 20], 0], [[20, 20], 45], [[20, 10], 90], [[10, 0], 180], [[0, 10], 270], [[0, 20], 315]];
  for (const [to, bearing] of expected) assert.ok(Math.abs(bearingDeg(from, to) - bearing) < 1e-9);
});

test("two taps on one place look nowhere", () => {
  assert.equal(bearingDeg([1, 1], [1.01, 1]), null);
});

test("lengths are written in the site's units and read back", () => {
  assert.equal(writeLength(13.426, "metric"), "13.43 m");
  assert.equal(writeLength(3.048, "us"), "10.0 ft"); // 1 ft = 0.3048 m
  assert.equal(readLength("13,43", "metric"), 13.43);
  assert.ok(Math.abs(readLength("10", "us") - 3.048) < 1e-12);
  assert.ok(Math.abs(readLength(" -10 ft ", "metric") + 3.048) < 1e-12);
});

test("what is typed in another way shows no marker", () => {
  for (const text of ["", "near the gate", "3 ft 4 in", "1.2.3", "NaN"]) assert.equal(readLength(text, "metric"), null);
});
