import assert from "node:assert/strict";
import { test } from "node:test";

import { ringArea } from "../../../static/js/board/plan/geometry.js";
import * as ground from "../../../static/js/board/plan/ground_edits.js";
import { find } from "../../../static/js/board/plan/lookup.js";
import { deepFrozen, emptyPlan, rowPlan } from "./support/plans.js";

const LAWN = [[0, 0], [20, 0], [20, 10], [0, 10]];
const areaOf = (doc, id) => find(doc, id).entity;
const lawn = (holes = []) => deepFrozen({ ...emptyPlan(), ground: { areas: [{ id: "lawn", soil: "clay", outline: LAWN, holes }] } });
const corners = (ring) => new Set(ring.map(String));

test("what is drawn gets a short id of its own, higher than those in use", () => {
  let { doc, ids } = ground.addArea(rowPlan(), LAWN);
  assert.deepEqual(ids, ["A2"]);
  ({ doc, ids } = ground.addSurface(doc, LAWN, { kind: "building", label: "House" }));
  assert.deepEqual(areaOf(doc, ids[0]), { kind: "building", label: "House", outline: LAWN, id: "G1" });
  assert.deepEqual(ground.addService(doc, [[0, 0], [0, 0], [5, 5]]).doc.ground.services[0].path, [[0, 0], [5, 5]]);
  assert.deepEqual(ground.addMark(doc, [1.23456, 2], { label: "P" }).doc.ground.marks, [{ label: "P", at: [1.235, 2], id: "M1" }]);
  assert.deepEqual(ground.addLevel(doc, [1, 2], { z_m: 0.4 }).ids, ["L1"]);
  assert.deepEqual(ground.addNote(doc, null, { text: " Mind the dog " }).doc.layout.notes, [{ text: "Mind the dog", id: "N1" }]);
});

test("what was not touched is shared with the document before", () => {
  const before = rowPlan();
  const { doc } = ground.addMark(before, [1, 1]);
  assert.equal(doc.layout, before.layout);
  assert.equal(doc.ground.areas, before.ground.areas);
  assert.equal(doc.supply, before.supply);
});

test("outlines and lines that are none are refused", () => {
  assert.throws(() => ground.addArea(rowPlan(), [[0, 0], [1, 0], [1, 0.0001], [0, 0]]), /three different corners/);
  assert.throws(() => ground.addArea(rowPlan(), [[0, 0], [1, 0], [2, 0]]), /encloses nothing/);
  assert.throws(() => ground.addService(rowPlan(), [[0, 0], [0, 0.0001]]), /two different points/);
  assert.throws(() => ground.addLevel(rowPlan(), [0, 0], {}), /how high/);
  assert.throws(() => ground.addArea(rowPlan(), LAWN, { id: "A1" }), /already/);
});

test("no plan grows beyond what the server takes", () => {
  const marks = Array.from({ length: 500 }, (_, i) => ({ id: `M${i}`, at: [i, 0] }));
  const full = deepFrozen({ ...emptyPlan(), ground: { marks } });
  assert.throws(() => ground.addMark(full, [1, 1]), /at most 500 marks/);
});

test("a hole lies inside its area and beside other holes", () => {
  const hole = [[2, 2], [4, 2], [4, 4], [2, 4]];
  const { doc } = ground.addHole(lawn(), "lawn", hole);
  assert.deepEqual(areaOf(doc, "lawn").holes, [hole]);
  assert.throws(() => ground.addHole(doc, "lawn", [[3, 3], [6, 3], [6, 6]]), /meets another/);
  assert.throws(() => ground.addHole(doc, "lawn", [[1, 1], [6, 1], [6, 6], [1, 6]]), /meets another/);
  assert.throws(() => ground.addHole(doc, "lawn", [[18, 3], [26, 3], [18, 6]]), /inside its outline/);
  assert.throws(() => ground.addHole(rowPlan(), "H1", hole), /areas/);
});

test("a line across makes two of one; the larger keeps the id, what is said of it holds for both", () => {
  const { doc, ids } = ground.splitOutline(lawn(), "lawn", [[5, -3], [5, 13]]);
  assert.deepEqual(ids, ["lawn", "A1"]);
  assert.deepEqual(corners(areaOf(doc, "lawn").outline), corners([[5, 0], [20, 0], [20, 10], [5, 10]]));
  assert.deepEqual(corners(areaOf(doc, "A1").outline), corners([[0, 0], [5, 0], [5, 10], [0, 10]]));
  assert.equal(areaOf(doc, "A1").soil, "clay");
});

test("a cut may bend, run from corner to corner, or end exactly on the edge or a millimetre short of it", () => {
  for (const [line, least_m2] of [
    [[[5, -1], [5, 5], [-1, 5]], 25],
    [[[0, 0], [20, 10]], 100],
    [[[8, 0], [8, 10]], 80],
    [[[8, 0.001], [8, 9.999]], 80],
    [[[0, 10], [10, 0]], 50],
  ]) {
    const { doc, ids } = ground.splitOutline(lawn(), "lawn", line);
    const [large, small] = ids.map((id) => ringArea(areaOf(doc, id).outline));
    assert.ok(Math.abs(small - least_m2) < 0.02 && Math.abs(large + small - 200) < 1e-9, `${line}: ${small} of ${large + small}`);
  }
});

test("holes go with the part that holds them; a line through one is refused", () => {
  const holes = [[[2, 2], [4, 2], [4, 4], [2, 4]], [[12, 2], [14, 2], [14, 4]]];
  const { doc } = ground.splitOutline(lawn(holes), "lawn", [[5, -1], [5, 11]]);
  assert.deepEqual([areaOf(doc, "lawn").holes, areaOf(doc, "A1").holes], [[holes[1]], [holes[0]]]);
  assert.throws(() => ground.splitOutline(lawn(holes), "lawn", [[3, -1], [3, 11]]), /through a hole/);
});

test("a line that does not cross, or crosses too often, is refused", () => {
  assert.throws(() => ground.splitOutline(lawn(), "lawn", [[5, 2], [5, 5]]), /does not cross/);
  assert.throws(() => ground.splitOutline(lawn(), "lawn", [[5, -1], [5, 5]]), /does not cross/);
  assert.throws(() => ground.splitOutline(lawn(), "lawn", [[0, 0], [20, 0]]), /does not cross/);
  assert.throws(() => ground.splitOutline(lawn(), "lawn", [[5, -1], [5, 11], [8, 11], [8, -1]]), /more than twice/);
  assert.throws(() => ground.splitOutline(lawn(), "lawn", [[0.0005, -1], [0.0005, 11]]), /next to nothing|does not cross/);
  assert.throws(() => ground.splitOutline(rowPlan(), "P1", [[0, 0], [1, 1]]), /areas or surfaces/);
});

test("heads follow the part in which they stand", () => {
  const { doc } = ground.splitOutline(rowPlan(), "A1", [[10, -1], [10, 9]]);
  assert.deepEqual(["H1", "H2", "H3"].map((id) => find(doc, id).entity.area), ["A1", "A1", "A2"]);
});

test("two parts that were cut become what they were", () => {
  for (const line of [[[5, -1], [5, 11]], [[5, -1], [7, 4], [3, 6], [5, 11]], [[-1, 3], [21, 7]]]) {
    const { doc, ids } = ground.splitOutline(lawn(), "lawn", line);
    const back = ground.joinOutlines(doc, ids);
    assert.deepEqual(back.ids, ["lawn"]);
    assert.deepEqual(corners(areaOf(back.doc, "lawn").outline), corners(LAWN), `${line}`);
    assert.deepEqual(back.doc.ground.areas.length, 1);
  }
});

test("an edge may be shared in part, and within a centimetre", () => {
  const { doc, ids } = ground.addArea(lawn(), [[20.008, 2], [25, 2], [25, 6], [19.995, 6]]);
  const joined = ground.joinOutlines(doc, ["lawn", ...ids]);
  assert.ok(Math.abs(ringArea(areaOf(joined.doc, "lawn").outline) - 220) < 0.1);
  assert.equal(areaOf(joined.doc, "lawn").outline.length, 8);
  assert.deepEqual(joined.notes, ["What is said of lawn now holds for the whole."]);
});

test("what two outlines close in between them becomes a hole", () => {
  const { doc, ids } = ground.addArea(lawn(), [[0, 10], [2, 10], [2, 14], [18, 14], [18, 10], [20, 10], [20, 16], [0, 16]]);
  const { outline, holes } = areaOf(ground.joinOutlines(doc, ["lawn", ...ids]).doc, "lawn");
  assert.deepEqual(corners(outline), corners([[0, 0], [20, 0], [20, 16], [0, 16]]));
  assert.deepEqual(corners(holes[0]), corners([[2, 10], [18, 10], [18, 14], [2, 14]]));
});

test("outlines apart, on each other or of two kinds are not joined", () => {
  const beside = ([x, y]) => ground.addArea(lawn(), LAWN.map(([cx, cy]) => [cx + x, cy + y]));
  for (const [shift, why] of [[[21, 0], /share no edge/], [[20, 10], /share no edge/], [[15, 3], /overlap/], [[0, 0], /overlap/]]) {
    const { doc, ids } = beside(shift);
    assert.throws(() => ground.joinOutlines(doc, ["lawn", ...ids]), why, `${shift}`);
  }
  const surface = ground.addSurface(lawn(), [[20, 0], [30, 0], [30, 10], [20, 10]]);
  assert.throws(() => ground.joinOutlines(surface.doc, ["lawn", ...surface.ids]), /cannot become one/);
  assert.throws(() => ground.joinOutlines(lawn(), ["lawn", "lawn"]), /Select two/);
});
