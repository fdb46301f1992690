import assert from "node:assert/strict";
import { test } from "node:test";

import { faults } from "../../../static/js/board/plan/faults.js";
import { demoPlan, rowPlan } from "./support/plans.js";

const told = (change) => {
  const doc = structuredClone(rowPlan());
  change(doc);
  return faults(doc).map((fault) => [fault.entity, fault.field]);
};
const BOW_TIE = [[0, 0], [4, 4], [4, 0], [0, 4]];

test("sound plans have no fault", () => {
  for (const name of ["plain-rectangle", "quince-house", "ferry-lane"]) assert.deepEqual(faults(demoPlan(name)), [], name);
  assert.deepEqual(faults(rowPlan()), []);
  assert.deepEqual(faults({ format: "plan/1" }), []);
});

const WRONG = [
  ["an id used twice", (doc) => { doc.layout.pipes[0].id = "H1"; }, ["H1", "id"]],
  ["an outline that crosses itself", (doc) => { doc.ground.areas[0].outline = BOW_TIE; }, ["A1", "outline"]],
  ["two corners", (doc) => { doc.ground.areas[0].outline = [[0, 0], [1, 1]]; }, ["A1", "outline"]],
  ["a hole outside", (doc) => { doc.ground.areas[0].holes = [[[30, 30], [31, 30], [31, 31]]]; }, ["A1", "holes[0]"]],
  ["a hole around a notch", (doc) => { Object.assign(doc.ground.areas[0], { outline: [[0, 0], [10, 0], [10, 10], [5, 2], [0, 10]], holes: [[[1, 1], [9, 1], [9, 6], [1, 6]]] }); }, ["A1", "holes[0]"]],
  ["an end that is missing", (doc) => { doc.layout.pipes[3].to = "H9"; }, ["P4", "to"]],
  ["a pipe to a controller", (doc) => { doc.layout.pipes[3].to = "C1"; }, ["P4", "to"]],
  ["a cable to the supply", (doc) => { doc.layout.cables[0].to = "S1"; }, ["K1", "to"]],
  ["a pipe around to its own node", (doc) => { Object.assign(doc.layout.pipes[3], { to: "H2", via: [[9, 9]] }); }, ["P4", "to"]],
  ["a line of one point", (doc) => { doc.layout.sleeves = [{ id: "D1", path: [[0, 0]] }]; }, ["D1", "path"]],
  ["a pipe that is too short", (doc) => { doc.layout.nodes[4].at = [8.03, 0]; }, ["P4", "via"]],
  ["no supply", (doc) => { doc.layout.nodes[0].kind = "junction"; }, ["supply", "at"]],
  ["two supplies", (doc) => { doc.layout.nodes[4].kind = "supply"; }, ["H3", "kind"]],
  ["an area that is missing", (doc) => { doc.layout.nodes[2].area = "A9"; }, ["H1", "area"]],
  ["a case of no zone", (doc) => { doc.layout.cases[0].open = ["C1"]; }, ["Front", "open"]],
  ["a place out of reach", (doc) => { doc.ground.marks = [{ id: "M1", at: [6000, 0] }]; }, ["M1", "at"]],
];

for (const [name, change, expected] of WRONG) {
  test(`${name} is told with where it is`, () => {
    const found = told(change);
    assert.ok(found.some(([entity, field]) => entity === expected[0] && field === expected[1]), JSON.stringify(found));
  });
}
