import assert from "node:assert/strict";
import test from "node:test";

import * as edits from "../../../static/js/trace/edits.js";

const EMPTY = { scale: null, check: null, known: [], slanted: false, outlines: [] };
const TURF = { becomes: "area", kind: "turf" };

function square() {
  const begun = edits.startOutline(EMPTY, [0, 0], TURF);
  const corners = [[10, 0], [10, 10], [0, 10]];
  return corners.reduce((trace, at) => edits.addCorner(trace, begun.id, at), begun.trace);
}

test("the ends of a scale are marked one after the other", () => {
  assert.equal(edits.nextEnd(EMPTY, "scale"), 0);
  const one = edits.markEnd(EMPTY, "scale", 0, [1, 2]);
  assert.equal(edits.nextEnd(one, "scale"), 1);
  assert.equal(edits.sendable(one).scale, null);
  const both = edits.markEnd(one, "scale", 1, [5, 6]);
  assert.equal(edits.nextEnd(both, "scale"), 0);
  assert.deepEqual(edits.sendable(both).scale.second_px, [5, 6]);
  assert.equal(EMPTY.scale, null);
});

test("marking anew keeps what was typed", () => {
  let trace = edits.markEnd(edits.markEnd(EMPTY, "check", 0, [1, 2]), "check", 1, [3, 4]);
  trace = edits.setBar(trace, "check", { length: "7.5 m" });
  const forgot = edits.forgetEnds(trace, "check");
  assert.equal(forgot.check.length, "7.5 m");
  assert.equal(forgot.check.first_px, null);
});

test("an edit shares what it leaves alone", () => {
  const trace = square();
  const more = edits.startOutline(trace, [50, 50], TURF);
  assert.equal(more.trace.outlines[0], trace.outlines[0]);
  assert.notEqual(more.id, trace.outlines[0].id);
});

test("ids stay apart after one is removed", () => {
  let trace = square();
  const second = edits.startOutline(trace, [1, 1], TURF);
  trace = edits.removeOutline(second.trace, trace.outlines[0].id);
  assert.notEqual(edits.freshId(trace), second.id);
});

test("the last corner goes, and with the last of all the outline", () => {
  let trace = square();
  const { id } = trace.outlines[0];
  trace = edits.undoCorner(trace, id);
  assert.deepEqual(trace.outlines[0].pixels, [[0, 0], [10, 0], [10, 10]]);
  for (let left = 0; left < 3; left += 1) trace = edits.undoCorner(trace, id);
  assert.deepEqual(trace.outlines, []);
  assert.equal(edits.undoCorner(trace, id), trace);
});

test("a corner is moved, put in half-way and taken out", () => {
  const trace = square();
  const { id } = trace.outlines[0];
  const handle = edits.handlesOf(trace).find((one) => one.index === 2);
  assert.deepEqual(edits.moveHandle(trace, handle, [12, 9]).outlines[0].pixels[2], [12, 9]);
  assert.deepEqual(edits.splitSide(trace, id, 3).outlines[0].pixels[4], [0, 5]);
  assert.equal(edits.removeCorner(trace, id, 1).outlines[0].pixels.length, 3);
});

test("a known point is marked once", () => {
  let trace = edits.markKnown(EMPTY, "P3", [1, 1]);
  trace = edits.markKnown(trace, "P3", [2, 2]);
  assert.deepEqual(trace.known, [{ point: "P3", at_px: [2, 2] }]);
  const [handle] = edits.handlesOf(trace);
  assert.deepEqual(edits.moveHandle(trace, handle, [3, 3]).known[0].at_px, [3, 3]);
  assert.deepEqual(edits.removeKnown(trace, "P3").known, []);
});

test("handles come for all that can be dragged", () => {
  let trace = edits.markEnd(square(), "scale", 0, [1, 1]);
  trace = edits.markKnown(trace, "A", [4, 4]);
  const parts = edits.handlesOf(trace).map((one) => one.part);
  assert.deepEqual(parts, ["outline", "outline", "outline", "outline", "known", "scale"]);
});
