import assert from "node:assert/strict";
import { test } from "node:test";

import { moveAll, removeAll } from "../../../static/js/board/plan/edits.js";
import { nearestOnPath } from "../../../static/js/board/plan/geometry.js";
import { pathOf } from "../../../static/js/board/plan/lookup.js";
import { snap } from "../../../static/js/board/plan/snapping.js";
import { deepFrozen, demoPlan, rowPlan, seeded } from "./support/plans.js";

const RADIUS = { radius_m: 0.3 };
const wall = (...paths) => deepFrozen({ format: "plan/1", ground: { services: paths.map((path, i) => ({ id: `U${i}`, kind: "gas", path })) }, layout: {} });
const pick = ({ at, what, id }) => ({ at, what, id });

test("a node comes before everything else within the radius", () => {
  assert.deepEqual(pick(snap(rowPlan(), [8.2, 0.1], RADIUS)), { at: [8, 0], what: "node", id: "H2" });
  assert.deepEqual(pick(snap(rowPlan(), [2.2, 0.1], RADIUS)), { at: [2, 0], what: "end", id: "A1" });
});

test("several nodes in one place are all told", () => {
  const found = snap(demoPlan("plain-rectangle"), [-1.02, 6.1], { radius_m: 0.2, ids: ["V1", "V2"] });
  assert.deepEqual([found.id, found.others], ["V1", ["V2"]]);
});

test("then a corner, a crossing, an edge or a pipe, in this order", () => {
  const plan = wall([[0, 0], [10, 0]], [[5, -5], [5, 5]]);
  assert.deepEqual(pick(snap(plan, [9.8, 0.2], RADIUS)), { at: [10, 0], what: "end", id: "U0" });
  assert.deepEqual(snap(plan, [5.2, 0.1], RADIUS).at, [5, 0]);
  assert.equal(snap(plan, [5.2, 0.1], RADIUS).what, "crossing");
  assert.deepEqual(pick(snap(plan, [2.5, 0.2], RADIUS)), { at: [2.5, 0], what: "edge", id: "U0" });
  assert.deepEqual(pick(snap(rowPlan(), [-2, 0.2], RADIUS)), { at: [-2, 0], what: "pipe", id: "P1" });
});

test("nothing near: the place itself, to the millimetre, or on a grid where one is asked for", () => {
  assert.deepEqual(snap(wall(), [3.14159, 2.71828], RADIUS), { at: [3.142, 2.718], what: null, id: null, guide: null });
  assert.deepEqual(pick(snap(wall(), [3.14159, 2.71828], { ...RADIUS, grid_m: 0.5 })), { at: [3, 2.5], what: "grid", id: null });
});

test("a leg is held square to the one before, or in line with it, and shows its guide", () => {
  const options = { ...RADIUS, from: [4, 3], previous: [0, 0] }; // 3-4-5: square to it runs (-3, 4)
  const square = snap(wall(), [1.1, 7.1], options);
  assert.deepEqual([square.what, square.how, square.guide[0], square.guide[1]], ["square", "square", [4, 3], square.at]);
  assert.ok(Math.abs((square.at[0] - 4) * 4 + (square.at[1] - 3) * 3) < 0.005);
  const ahead = snap(wall(), [8.1, 5.9], options);
  assert.equal(ahead.how, "extension");
  assert.ok(Math.abs((ahead.at[0] - 4) * 3 - (ahead.at[1] - 3) * 4) < 0.005);
});

test("a leg from an edge is held square to that edge", () => {
  const found = snap(wall([[0, 0], [10, 0]]), [3.1, 6], { ...RADIUS, from: [3, 0] });
  assert.deepEqual([found.at, found.how, found.id], [[3, 6], "square", "U0"]);
});

test("a leg meets an edge at right angles, or where its guide crosses it", () => {
  const plan = wall([[0, 5], [20, 5]]);
  const foot = snap(plan, [7.15, 5.1], { ...RADIUS, from: [7, 1] });
  assert.deepEqual([foot.at, foot.what, foot.how, foot.guide], [[7, 5], "edge", "square", [[7, 1], [7, 5]]]);
  const guided = snap(plan, [9.2, 5.1], { ...RADIUS, from: [5, 1], previous: [4, 0] });
  assert.deepEqual([guided.at, guided.how], [[9, 5], "extension"]);
});

test("an edge can be drawn on beyond its end", () => {
  const found = snap(wall([[0, 0], [10, 0]]), [12, 0.1], RADIUS);
  assert.deepEqual([found.at, found.how, found.guide], [[12, 0], "extension", [[10, 0], [12, 0]]]);
});

test("the same x or y as another corner is a weak guide; two of them cross", () => {
  const plan = wall([[0, 0], [3, 9]], [[30, 20], [33, 29]]);
  const level = snap(plan, [20, 8.9], RADIUS);
  assert.deepEqual([level.at, level.how, level.guide], [[20, 9], "align", [[3, 9], [20, 9]]]);
  assert.deepEqual(snap(plan, [30.1, 8.95], RADIUS).at, [30, 9]);
  assert.equal(snap(plan, [20, 8.8], RADIUS).what, null);
  const stronger = snap(plan, [20, 8.9], { ...RADIUS, from: [20.1, 0], previous: [10, 0] });
  assert.equal(stronger.how, "square");
});

test("what is being moved does not count, nor the pipes that hang on it", () => {
  assert.equal(snap(rowPlan(), [8.1, 0.2], { ...RADIUS, avoid: ["H2", "A1"] }).what, null);
  assert.notEqual(snap(rowPlan(), [6, 0.2], { ...RADIUS, avoid: ["H1", "A1"] }).what, "pipe");
  assert.equal(snap(rowPlan(), [6, 0.1], { ...RADIUS, ids: ["P3"] }).what, "pipe");
});

test("after edits the same is found as in a document that was never seen before", () => {
  const random = seeded(11);
  let doc = demoPlan("quince-house");
  const ids = doc.layout.nodes.map((node) => node.id).filter((id) => id !== "S");
  for (let i = 0; i < 60; i += 1) {
    const id = ids[Math.floor(random() * ids.length)];
    const edit = i % 10 === 9 ? () => removeAll(doc, [id]) : () => moveAll(doc, [id], random() - 0.5, random() - 0.5);
    if (doc.layout.nodes.some((node) => node.id === id)) ({ doc } = edit());
    const options = { radius_m: 0.4, from: [10, 10], previous: [5, 10] };
    const [x, y] = demoPlan("quince-house").layout.nodes.find((node) => node.id === id).at;
    const around = Array.from({ length: 40 }, () => [x + random() * 6 - 3, y + random() * 6 - 3]);
    const places = [...around, ...Array.from({ length: 10 }, () => [random() * 36, random() * 34 - 4])];
    const found = places.map((at) => pick(snap(doc, at, options)));
    for (const one of found.filter(({ what }) => what === "pipe")) {
      assert.ok(nearestOnPath(one.at, pathOf(doc, one.id)).distance_m < 0.002, `${i}: ${one.id} is not at ${one.at}`);
    }
    const anew = structuredClone(doc);
    places.forEach((at, n) => assert.deepEqual(pick(snap(anew, at, options)), found[n], `${i}: ${at}`));
    snap(doc, [0, 0], options);
  }
});

test("a pipe whose end was moved is no longer found where it lay", () => {
  assert.equal(snap(rowPlan(), [10, -0.1], { ...RADIUS, ids: ["P4"] }).what, "pipe");
  const { doc } = moveAll(rowPlan(), ["H3"], 0, 8);
  assert.equal(snap(doc, [10, -0.1], { ...RADIUS, ids: ["P4"] }).what, null);
  assert.deepEqual(snap(doc, [10, 4.1], { ...RADIUS, ids: ["P4"] }).what, "pipe");
});

test("the nearest node is the one that a search through all of them finds", () => {
  const random = seeded(5);
  const nodes = demoPlan("quince-house").layout.nodes;
  for (let i = 0; i < 500; i += 1) {
    const at = [random() * 36, random() * 34 - 4];
    const off = (node) => Math.hypot(node.at[0] - at[0], node.at[1] - at[1]);
    const nearest = nodes.reduce((best, node) => (off(node) < off(best) ? node : best));
    const found = snap(demoPlan("quince-house"), at, { radius_m: 1.5 });
    if (off(nearest) <= 1.5) assert.deepEqual(found.at, nearest.at);
    else assert.notEqual(found.what, "node");
  }
});
