import assert from "node:assert/strict";
import test from "node:test";

import { boxFrom, pointsTyped, withoutRepeats } from "../../../static/js/board/tools/drawn_points.js";
import { figuresMeasured, figuresToMeasure, opensTyped, parseFigures } from "../../../static/js/board/tools/typed_figures.js";

test("lengths stay as typed, with unit and decimal comma", () => {
  for (const text of ["24", "80 ft", "7,32", "7.32 m", "3' 6\""]) {
    assert.deepEqual(parseFigures(` ${text} `), { kind: "length", length: text });
  }
});

test("a length at a bearing, and a bearing alone", () => {
  assert.deepEqual(parseFigures("24 m @ 90"), { kind: "polar", length: "24 m", bearing: "90" });
  assert.deepEqual(parseFigures("@45"), { kind: "bearing", bearing: "45" });
  assert.equal(parseFigures("24 @").kind, "refused");
  assert.equal(parseFigures("1 @ 2 @ 3").kind, "refused");
});

test("a rectangle takes two figures, however the times is written", () => {
  for (const text of ["24 x 12", "24x12", "24 X 12", "24 × 12", "24 by 12"]) {
    assert.deepEqual(parseFigures(text), { kind: "box", width: { sign: 1, text: "24" }, height: { sign: 1, text: "12" } });
  }
  assert.deepEqual(parseFigures("80 ft x -40 ft").height, { sign: -1, text: "40 ft" });
  assert.equal(parseFigures("24 x").kind, "refused");
  assert.equal(parseFigures("1 x 2 x 3").kind, "refused");
});

test("places and steps have a semicolon, so that a comma stays a decimal comma", () => {
  assert.deepEqual(parseFigures("-1,3; 6"), { kind: "place", east: { sign: -1, text: "1,3" }, north: { sign: 1, text: "6" } });
  assert.equal(parseFigures("+ 3; -4").kind, "step");
  assert.deepEqual(parseFigures("+ 3; -4").north, { sign: -1, text: "4" });
  assert.equal(parseFigures("+-3;4").east.sign, -1);
  assert.equal(parseFigures("3;").kind, "refused");
  assert.equal(parseFigures("").kind, "refused");
});

test("what the server is asked, and what its answers come to", () => {
  const figures = parseFigures("24 @ 90");
  assert.deepEqual(figuresToMeasure(figures), [
    { name: "length", kind: "length", text: "24" }, { name: "bearing", kind: "angle", text: "90" }]);
  assert.deepEqual(figuresMeasured(figures, { length: 24, bearing: 90 }), { kind: "polar", length_m: 24, bearing_deg: 90 });
  assert.deepEqual(figuresMeasured(parseFigures("-1; 6"), { east: 1, north: 6 }), { kind: "place", east_m: -1, north_m: 6 });
});

test("digits and signs begin something typed, letters are left to the tools", () => {
  for (const key of ["0", "9", "-", "+", ".", "@"]) assert.ok(opensTyped(key), key);
  for (const key of ["L", "x", "Enter", "ArrowUp", " "]) assert.ok(!opensTyped(key), key);
});

test("a bearing runs clockwise from north", () => {
  const drawn = pointsTyped({ kind: "polar", length_m: 24, bearing_deg: 90 }, { from: [1, 2] });
  assert.deepEqual(drawn.points, [[25, 2]]);
  assert.deepEqual(pointsTyped({ kind: "length", length_m: 5 }, { from: [0, 0], towards: [6, 8] }).points, [[3, 4]]);
});

test("a length without a first point or a direction is refused with a sentence", () => {
  assert.match(pointsTyped({ kind: "length", length_m: 5 }, { from: null }).refused, /first point/);
  assert.match(pointsTyped({ kind: "length", length_m: 5 }, { from: [0, 0], towards: null }).refused, /bearing/);
});

test("a rectangle begins at the last point, else at the start", () => {
  assert.deepEqual(boxFrom([0, 0], 24, 12), [[0, 0], [24, 0], [24, 12], [0, 12]]);
  assert.deepEqual(pointsTyped({ kind: "box", width_m: 2, height_m: -1 }, { from: [5, 5] }).points[2], [7, 4]);
});

test("the second click of a double click sets no point", () => {
  assert.deepEqual(withoutRepeats([[0, 0], [1, 0], [1, 0]]), [[0, 0], [1, 0]]);
  assert.deepEqual(withoutRepeats([[0, 0], [1, 0], [1, 1], [0, 0]], { closed: true }), [[0, 0], [1, 0], [1, 1]]);
});
