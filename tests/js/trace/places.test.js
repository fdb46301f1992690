import assert from "node:assert/strict";
import test from "node:test";

import { nearestHandle, toMap, toPixel, typedPlace } from "../../../static/js/trace/places.js";

const PICTURE = { width: 800, height: 600 };

test("down in the picture is down on the map", () => {
  assert.deepEqual(toMap([10, 0], 600), [10, 600]);
  assert.deepEqual(toMap([10, 600], 600), [10, 0]);
  assert.deepEqual(toPixel(toMap([12.3, 45.6], 600), PICTURE), [12.3, 45.6]);
});

test("a place outside is moved to the edge", () => {
  assert.deepEqual(toPixel([-50, 700], PICTURE), [0, 0]);
  assert.deepEqual(toPixel([900, -1], PICTURE), [800, 600]);
});

test("typed numbers, with a point or a comma", () => {
  assert.equal(typedPlace(" 12,34 ", 800), 12.3);
  assert.equal(typedPlace("9999", 800), 800);
  for (const bad of ["", "  ", "abc", "1e999"]) assert.equal(typedPlace(bad, 800), null, bad);
});

test("the nearest handle within reach, the later of two", () => {
  const handles = [{ id: "a", at: [0, 0] }, { id: "b", at: [10, 0] }, { id: "c", at: [10, 0] }];
  assert.equal(nearestHandle(handles, [2, 0], 5).id, "a");
  assert.equal(nearestHandle(handles, [9, 0], 5).id, "c");
  assert.equal(nearestHandle(handles, [5, 4], 5), null);
});
