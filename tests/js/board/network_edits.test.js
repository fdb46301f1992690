import assert from "node:assert/strict";
import { test } from "node:test";

import { movePoint, removeAll } from "../../../static/js/board/plan/edits.js";
import { faults } from "../../../static/js/board/plan/faults.js";
import { find, pathOf, pipesAt, supplyNode } from "../../../static/js/board/plan/lookup.js";
import * as network from "../../../static/js/board/plan/network_edits.js";
import { deepFrozen, demoPlan, emptyPlan, rowPlan } from "./support/plans.js";

const PE = { part: "pe-25" };
const ends = (doc, id) => [find(doc, id).entity.from, find(doc, id).entity.to];
const node = (doc, id) => find(doc, id).entity;
const bent = () => network.drawPipe(rowPlan(), [{ node: "H3" }, [12, 5], [15, 5], [15, 9]], PE);

test("a head put on a pipe makes two of the same part; the first keeps the id, bends are shared out", () => {
  const { doc: before, ids: [pipe] } = bent();
  const { doc, ids } = network.addNode(before, { kind: "head", part: "spray-4", at: [13.5, 5.004] });
  assert.deepEqual(ids, ["H4", pipe, "P6"]);
  assert.deepEqual(pathOf(doc, pipe), [[12, 0], [12, 5], [13.5, 5]]);
  assert.deepEqual(pathOf(doc, "P6"), [[13.5, 5], [15, 5], [15, 9]]);
  assert.equal(node(doc, "P6").part, "pe-25");
  assert.deepEqual(faults(doc), []);
});

test("taking a node off a pipe again gives the same path and the same id, wherever it was put", () => {
  const { doc: before, ids: [pipe] } = bent();
  const path = pathOf(before, pipe);
  for (const at of [[12, 2.5], [12.0004, 4.3], [12, 5], [13.1, 5], [15, 5.003], [15, 8.2]]) {
    for (const kind of ["head", "valve", "junction"]) {
      const { doc, ids } = network.addNode(before, { kind, part: "x", at }, { on: pipe });
      const healed = removeAll(doc, [ids[0]]);
      assert.deepEqual(pathOf(healed.doc, pipe), path, `${kind} at ${at}`);
      assert.equal(pipesAt(healed.doc, "H3").length, 2);
      assert.deepEqual(healed.ids, [pipe]);
    }
  }
});

test("a slanting pipe heals to the same path although a place on it is rounded", () => {
  const { doc: before, ids: [pipe] } = network.drawPipe(rowPlan(), [{ node: "H3" }, [19.137, 7.713]], PE);
  for (let share = 0.02; share < 1; share += 0.049) {
    const at = [12 + 7.137 * share, 7.713 * share];
    const { doc, ids } = network.addNode(before, { kind: "junction", at });
    assert.equal(ids[1], pipe, `${at}`);
    assert.deepEqual(pathOf(removeAll(doc, [ids[0]]).doc, pipe), pathOf(before, pipe));
  }
});

test("a node beside a pipe, or a controller on it, leaves the pipe alone", () => {
  assert.deepEqual(network.addNode(rowPlan(), { kind: "head", part: "x", at: [6, 0.03] }).ids, ["H4"]);
  assert.deepEqual(network.addNode(rowPlan(), { kind: "controller", part: "x", at: [6, 0] }).ids, ["C2"]);
  assert.deepEqual(network.addNode(rowPlan(), { kind: "head", part: "x", at: [6, 0] }, { on: false }).ids, ["H4"]);
});

test("no pipe becomes shorter than the document takes", () => {
  assert.throws(() => network.addNode(rowPlan(), { kind: "head", part: "x", at: [4.03, 0] }, { on: "P3" }), /too near/);
  assert.throws(() => network.splitPipe(rowPlan(), "P3", [7.98, 0]), /too near/);
});

test("a node that bends the line by more than 1 degree stays as a bend", () => {
  const moved = movePoint(rowPlan(), { id: "H2", place: "at", ring: 0, index: 0 }, [8, 1]).doc;
  const { doc, ids, notes } = network.joinPipesAt(moved, "H2");
  assert.deepEqual([ids, notes], [["P3"], []]);
  assert.deepEqual(pathOf(doc, "P3"), [[4, 0], [8, 1], [12, 0]]);
  const straight = movePoint(rowPlan(), { id: "H2", place: "at", ring: 0, index: 0 }, [8, 0.03]).doc;
  assert.deepEqual(pathOf(network.joinPipesAt(straight, "H2").doc, "P3"), [[4, 0], [12, 0]]);
});

test("pipes drawn against each other become one with its bends in order", () => {
  const out = network.drawPipe(rowPlan(), [{ node: "H3" }, [12, 4], [13, 6], [20, 6]], PE);
  const { doc } = network.drawPipe(out.doc, [[30, 0], [30, 3], [29, 5], { node: "J1" }], PE);
  const whole = [[12, 0], [12, 4], [13, 6], [20, 6], [29, 5], [30, 3], [30, 0]];
  assert.deepEqual(pathOf(network.joinPipesAt(doc, "J1").doc, "P5"), whole);
  const back = network.drawPipe(network.drawPipe(rowPlan(), [[20, 6], [13, 6], [12, 4], { node: "H3" }], PE).doc, [{ node: "J1" }, [29, 5], [30, 0]], PE);
  assert.deepEqual(pathOf(network.joinPipesAt(back.doc, "J1").doc, "P5"), [[30, 0], [29, 5], [20, 6], [13, 6], [12, 4], [12, 0]]);
});

test("pipes of two parts that become one say so", () => {
  const { notes } = network.joinPipesAt(rowPlan(), "V1");
  assert.deepEqual(notes, ["P2 was pe-25; it is now part of P1, pe-32."]);
});

test("only a node with two pipes can be taken out of its line", () => {
  assert.throws(() => network.joinPipesAt(rowPlan(), "H3"), /only two/);
  assert.throws(() => network.joinPipesAt(rowPlan(), "S1"), /supply/);
});

test("a line over a row of heads becomes pipes from head to head, in the order of the line", () => {
  const doc = deepFrozen({ ...rowPlan(), layout: { ...rowPlan().layout, pipes: [], cables: [] } });
  const { doc: after, ids } = network.drawPipe(doc, [{ node: "V1" }, [14, 0.04]], PE);
  assert.deepEqual(ids.slice(0, 4).map((id) => ends(after, id)), [["V1", "H1"], ["H1", "H2"], ["H2", "H3"], ["H3", "J1"]]);
  const back = network.drawPipe(doc, [{ node: "H3" }, { node: "V1" }], PE);
  assert.deepEqual(back.ids.map((id) => ends(back.doc, id)), [["H3", "H2"], ["H2", "H1"], ["H1", "V1"]]);
});

test("what lies farther than 0.05 m from the line is passed by", () => {
  const { doc, ids } = network.drawPipe(rowPlan(), [[3, 0.06], [9, 0.06]], PE);
  assert.deepEqual(ends(doc, ids[0]), ["J1", "J2"]);
  assert.equal(pipesAt(doc, "H1").length, 2);
});

test("a bend of the line stays a bend of its pipe", () => {
  const { doc, ids } = bent();
  assert.deepEqual(ids, ["P5", "J1"]);
  assert.deepEqual(node(doc, "P5"), { id: "P5", from: "H3", to: "J1", via: [[12, 5], [15, 5]], part: "pe-25" });
});

test("an end on a pipe puts a junction there; a crossing does not connect", () => {
  const { doc, ids } = network.drawPipe(rowPlan(), [[6, 0.01], [6, 6]], PE);
  assert.deepEqual(ids, ["P6", "J1", "J2"]);
  assert.deepEqual([ends(doc, "P3"), ends(doc, "P5")], [["H1", "J1"], ["J1", "H2"]]);
  const across = network.drawPipe(rowPlan(), [[6, -3], [6, 6]], PE);
  assert.deepEqual(across.ids, ["P5", "J1", "J2"]);
  assert.deepEqual(ends(across.doc, "P3"), ["H1", "H2"]);
});

test("both ends on one pipe cut it twice", () => {
  const { doc, ids } = network.drawPipe(rowPlan(), [{ at: [5, 0], pipe: "P3" }, [5, 2], [7, 2], { at: [7, 0], pipe: "P3" }], PE);
  assert.deepEqual(ends(doc, ids[0]), ["J1", "J2"]);
  assert.deepEqual(pathOf(doc, "P3"), [[4, 0], [5, 0]]);
  assert.equal(pipesAt(doc, "J2").length, 3);
  assert.deepEqual(faults(doc), []);
});

test("a bend on a pipe connects only where the pipe is named", () => {
  const line = (bend) => network.drawPipe(rowPlan(), [[6, -3], bend, [7, 5]], PE);
  assert.deepEqual(line([6, 0]).ids, ["P5", "J1", "J2"]);
  assert.equal(pipesAt(line({ at: [6, 0], pipe: "P3" }).doc, "J2").length, 4);
});

test("of several nodes in one place the one that is named is taken", () => {
  const plan = demoPlan("plain-rectangle"); // V1 and V2 share a box
  for (const valve of ["V1", "V2"]) {
    const { doc, ids } = network.drawPipe(plan, [{ node: valve }, [-1, 9]], PE);
    assert.equal(ends(doc, ids[0])[0], valve);
  }
});

test("a point that is to pass by gets a junction of its own, even on a head or a pipe", () => {
  const { doc, ids } = network.drawPipe(rowPlan(), [{ at: [8, 0], node: null }, [8, 6]], PE);
  assert.deepEqual([ids, ends(doc, "P5")], [["P5", "J1", "J2"], ["J1", "J2"]]);
  assert.deepEqual(node(doc, "J1").at, [8, 0]);
  const trench = network.drawPipe(rowPlan(), [{ at: [6, 0], node: null }, { at: [6, 4], node: null }], PE);
  assert.deepEqual(ends(trench.doc, "P3"), ["H1", "H2"]);
  const bend = network.drawPipe(rowPlan(), [[8, -4], { at: [8, 0], node: null }, [8, 6]], PE);
  assert.deepEqual(pathOf(bend.doc, "P5"), [[8, -4], [8, 0], [8, 6]]);
});

test("a ring main closes on the junction where it began", () => {
  const { doc, ids } = network.drawPipe(rowPlan(), [[4, 3], { node: "H2" }, [8, 6], [4.01, 3.01]], PE);
  assert.deepEqual(ids.slice(0, 2).map((id) => ends(doc, id)), [["J1", "H2"], ["H2", "J1"]]);
  const free = network.drawPipe(emptyPlan(), [[0, 5], [10, 5], [10, 9], [0.02, 5.01]], PE);
  assert.deepEqual(free.ids, ["P1", "P2", "J1", "J2"]);
  assert.deepEqual([pathOf(free.doc, "P1"), pathOf(free.doc, "P2")], [[[0, 5], [10, 5], [10, 9]], [[10, 9], [0, 5]]]);
});

test("a pipe that lies there already is not laid twice", () => {
  assert.throws(() => network.drawPipe(rowPlan(), [{ node: "H1" }, { node: "H2" }], PE), /P3 runs from H1 to H2 already/);
  const { ids, notes } = network.drawPipe(rowPlan(), [{ node: "H2" }, { node: "H3" }, [12, 4]], PE);
  assert.deepEqual([ids, notes], [["P5", "J1"], ["P4 runs from H2 to H3 already."]]);
});

test("impossible pipes are refused with a sentence", () => {
  assert.throws(() => network.drawPipe(rowPlan(), [[1, 1], [1, 1]], PE), /two different points/);
  assert.throws(() => network.drawPipe(rowPlan(), [{ node: "C1" }, [1, 1]], PE), /controller/);
  assert.throws(() => network.drawPipe(rowPlan(), [{ node: "X" }, [1, 1]], PE), /no node “X”/);
  assert.throws(() => network.drawPipe(demoPlan("plain-rectangle"), [{ node: "V1" }, { node: "V2" }], PE), /one place/);
  assert.throws(() => network.drawPipe(rowPlan(), [[1, 1], [2, 1]], { part: "" }), /Choose a pipe/);
});

test("an existing node is led into a pipe", () => {
  const loose = network.addNode(rowPlan(), { kind: "head", part: "x", at: [6, 0.3] });
  const { doc } = network.attachNode(loose.doc, "H4", "P3");
  assert.deepEqual([ends(doc, "P3"), ends(doc, "P5")], [["H1", "H4"], ["H4", "H2"]]);
  assert.throws(() => network.attachNode(doc, "H4", "P3"), /already/);
});

test("an open end becomes part of the head that it is drawn onto", () => {
  const { doc: open } = network.drawPipe(rowPlan(), [{ node: "H2" }, [8, 4], [12, 4]], PE);
  const { doc, ids, notes } = network.mergeNodes(open, "J1", "H3");
  assert.deepEqual([ids, notes, find(doc, "J1")], [["H3"], [], null]);
  assert.deepEqual(pathOf(doc, "P5"), [[8, 0], [8, 4], [12, 0]]);
  assert.deepEqual(network.mergeNodes(open, "J1", "H2").notes, ["No longer needed: P5."]);
  assert.throws(() => network.mergeNodes(open, "H3", "J1"), /only a junction/);
  assert.throws(() => network.mergeNodes(open, "J1", "C1"), /controller/);
});

test("a line that ends, or begins, on itself is joined there", () => {
  const loop = [[0, 3], [10, 3], [10, 9], [5, 9], [5, 3]];
  for (const line of [loop, [...loop].reverse()]) {
    const { doc } = network.drawPipe(emptyPlan(), line, PE);
    const tee = doc.layout.nodes.find((one) => one.at[0] === 5 && one.at[1] === 3);
    assert.equal(new Set(pipesAt(doc, tee.id)).size, 3);
    assert.deepEqual(faults({ ...doc, layout: { ...doc.layout, nodes: [...doc.layout.nodes, { id: "S", kind: "supply", at: [0, 0] }] } }), []);
  }
});

test("cables join devices once, never the supply", () => {
  const { doc, ids } = network.drawCable(rowPlan(), "C1", "H2", { part: "cable-5", via: [[0, 3.00049]] });
  assert.deepEqual(find(doc, ids[0]).entity, { id: "K2", from: "C1", to: "H2", via: [[0, 3]], part: "cable-5" });
  assert.throws(() => network.drawCable(doc, "V1", "C1", { part: "cable-5" }), /already/);
  assert.throws(() => network.drawCable(doc, "C1", "S1", { part: "cable-5" }), /supply/);
  assert.throws(() => network.drawCable(doc, "C1", "C1", { part: "cable-5" }), /begin and end/);
});

test("the supply and its node stay together, and there is one", () => {
  const { doc } = network.setSupply(rowPlan(), [-5, 1]);
  assert.deepEqual([doc.supply.at, supplyNode(doc).at, doc.supply.static_kpa], [[-5, 1], [-5, 1], 400]);
  const first = network.addNode(emptyPlan(), { kind: "supply", at: [2, 2] });
  assert.deepEqual([first.ids, first.doc.supply.at], [["S1"], [2, 2]]);
  assert.throws(() => network.addNode(first.doc, { kind: "supply", at: [3, 3] }), /already/);
});
