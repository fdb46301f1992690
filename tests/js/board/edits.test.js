import assert from "node:assert/strict";
import { test } from "node:test";

import * as edits from "../../../static/js/board/plan/edits.js";
import { addHole, addNote } from "../../../static/js/board/plan/ground_edits.js";
import { everyId, extentOf, find, freshId, handlesOf, pathOf, pipesAt, ringsOf, supplyNode } from "../../../static/js/board/plan/lookup.js";
import { drawPipe, setSupply } from "../../../static/js/board/plan/network_edits.js";
import { deepFrozen, demoPlan, rowPlan } from "./support/plans.js";

const of = (doc, id) => find(doc, id).entity;
const PE = { part: "pe-25" };
const bent = () => drawPipe(rowPlan(), [{ node: "H3" }, [12, 5], [15, 5], [15, 9]], PE).doc;

test("things are found by id, with their group; the supply under its own name", () => {
  assert.equal(find(rowPlan(), "H1").group, "nodes");
  assert.deepEqual(find(rowPlan(), "supply"), { group: "supply", entity: rowPlan().supply });
  assert.equal(find(rowPlan(), "nothing"), null);
  assert.equal(everyId(rowPlan()).size, 12);
  assert.deepEqual([freshId(rowPlan(), "H"), freshId(rowPlan(), "X")], ["H4", "X1"]);
});

test("handles, rings, paths and the extent are those of the document", () => {
  const doc = addHole(bent(), "A1", [[3, 3], [5, 3], [5, 5]]).doc;
  assert.deepEqual(handlesOf(doc, "A1").map((handle) => handle.place).join(" "), "outline outline outline outline hole hole hole");
  assert.deepEqual(handlesOf(doc, "P5"), [
    { id: "P5", place: "via", ring: 0, index: 0, at: [12, 5] },
    { id: "P5", place: "via", ring: 0, index: 1, at: [15, 5] },
  ]);
  assert.equal(ringsOf(doc, "A1").length, 2);
  assert.deepEqual(pathOf(doc, "P5"), [[12, 0], [12, 5], [15, 5], [15, 9]]);
  assert.deepEqual([extentOf(doc), extentOf(doc, ["H1", "P5"]), extentOf(doc, [])], [[-4, 0, 16, 9], [4, 0, 15, 9], null]);
});

test("a point moves alone, to the millimetre; where nothing moves the document is the same", () => {
  const [corner] = handlesOf(rowPlan(), "A1");
  assert.deepEqual(of(edits.movePoint(rowPlan(), corner, [1.00049, -1]).doc, "A1").outline[0], [1, -1]);
  const doc = rowPlan();
  assert.equal(edits.movePoint(doc, corner, [2, 0]).doc, doc);
  assert.throws(() => edits.movePoint(doc, { ...corner, index: 9 }, [0, 0]), /no longer there/);
});

test("the supply's place and its node move together, whichever is taken hold of", () => {
  for (const id of ["S1", "supply"]) {
    const moved = edits.movePoint(rowPlan(), { id, place: "at", ring: 0, index: 0 }, [-6, 2]).doc;
    assert.deepEqual([moved.supply.at, supplyNode(moved).at], [[-6, 2], [-6, 2]]);
    const shifted = edits.moveAll(rowPlan(), [id], 1, 1).doc;
    assert.deepEqual([shifted.supply.at, supplyNode(shifted).at], [[-3, 1], [-3, 1]]);
    const set = edits.setProps(rowPlan(), id, { at: [3, 3] }).doc;
    assert.deepEqual([set.supply.at, supplyNode(set).at], [[3, 3], [3, 3]]);
  }
});

test("points are put in at their number and taken out again, as long as enough are left", () => {
  const doc = edits.insertPoint(rowPlan(), "A1", "outline", 0, 1, [9, -1]).doc;
  assert.deepEqual(of(doc, "A1").outline.slice(0, 3), [[2, 0], [9, -1], [16, 0]]);
  assert.deepEqual(of(edits.removePoint(doc, handlesOf(doc, "A1")[1]).doc, "A1").outline, of(rowPlan(), "A1").outline);
  const via = edits.insertPoint(rowPlan(), "P3", "via", 0, 0, [6, 1]).doc;
  assert.deepEqual(of(via, "P3").via, [[6, 1]]);
  assert.ok(!("via" in of(edits.removePoint(via, handlesOf(via, "P3")[0]).doc, "P3")));
  const triangle = deepFrozen({ ...rowPlan(), ground: { areas: [{ id: "A1", outline: [[0, 0], [9, 0], [9, 9]] }] } });
  assert.throws(() => edits.removePoint(triangle, handlesOf(triangle, "A1")[0]), /three points/);
  const holed = addHole(rowPlan(), "A1", [[3, 3], [5, 3], [5, 5]]).doc;
  assert.ok(!("holes" in of(edits.removePoint(holed, handlesOf(holed, "A1").at(-1)).doc, "A1")));
});

test("pipes bring their bends when both ends move, and keep them when one does", () => {
  assert.deepEqual(pathOf(edits.moveAll(bent(), ["H3", "J1"], 1, 2).doc, "P5"), [[13, 2], [13, 7], [16, 7], [16, 11]]);
  assert.deepEqual(pathOf(edits.moveAll(bent(), ["H3"], 1, 2).doc, "P5"), [[13, 2], [12, 5], [15, 5], [15, 9]]);
  assert.deepEqual(pathOf(edits.moveAll(bent(), ["P5", "H3", "J1"], 1, 2).doc, "P5")[1], [13, 7]);
  assert.deepEqual(pathOf(edits.moveAll(bent(), ["P5"], 1, 2).doc, "P5"), [[12, 0], [13, 7], [16, 7], [15, 9]]);
  assert.throws(() => edits.moveAll(rowPlan(), ["P3"], 1, 1), /moves with its ends/);
});

test("an area moves with its holes, and there and back is where it was", () => {
  const doc = addHole(rowPlan(), "A1", [[3, 3], [5, 3], [5, 5]]).doc;
  const there = edits.moveAll(doc, ["A1"], 0.1, -0.3).doc;
  assert.deepEqual(of(there, "A1").holes[0][0], [3.1, 2.7]);
  assert.deepEqual(edits.moveAll(there, ["A1"], -0.1, 0.3).doc, doc);
  assert.equal(there.layout, doc.layout);
});

test("turning takes the arcs along; four quarter turns lead back exactly", () => {
  const quarter = (doc) => edits.turnAll(doc, ["H1", "A1", "J1", "H3"], [5, 5], 90).doc;
  const once = quarter(bent());
  assert.deepEqual([of(once, "H1").at, of(once, "H1").from_deg, of(once, "H1").sweep_deg], [[0, 6], 90, 180]);
  assert.deepEqual(pathOf(once, "P5")[1], [5, -2]);
  assert.deepEqual(quarter(quarter(quarter(once))), bent());
  assert.equal(of(edits.turnAll(bent(), ["H1"], [4, 0], -30).doc, "H1").from_deg, 330);
});

test("copies keep what joins them, under new ids; cases and the supply are not copied", () => {
  const { doc, ids, notes } = edits.copyAll(bent(), ["H2", "H3", "J1", "S1"], 0, 10);
  assert.deepEqual(ids, ["H4", "H5", "J2", "P6", "P7"]);
  assert.deepEqual([of(doc, "P6").from, of(doc, "P6").to], ["H4", "H5"]);
  assert.deepEqual(pathOf(doc, "P7"), [[12, 10], [12, 15], [15, 15], [15, 19]]);
  assert.deepEqual(notes, ["The supply was not copied; a plan has one."]);
  assert.deepEqual(doc.layout.cases, rowPlan().layout.cases);
  assert.ok(!("area" in of(doc, "H4")));
  assert.equal(of(edits.copyAll(bent(), ["H2"], 1, 1).doc, "H4").area, "A1");
  assert.equal(of(edits.copyAll(bent(), ["H2", "A1"], 0, 30).doc, "H4").area, "A2");
  assert.throws(() => edits.copyAll(bent(), ["P5"], 1, 1), /two ends/);
  assert.throws(() => edits.copyAll(bent(), ["S1"], 1, 1), /one supply/);
});

test("a head taken out of a row leaves one pipe; its cables go, cases forget it", () => {
  const { doc, ids } = edits.removeAll(rowPlan(), ["H2"]);
  assert.deepEqual([ids, of(doc, "P3").to], [["P3"], "H3"]);
  const valve = edits.removeAll(rowPlan(), ["V1"]);
  assert.deepEqual([valve.doc.layout.cables, valve.doc.layout.cases], [[], []]);
});

test("where three pipes meet they go, with junctions that then lead nowhere", () => {
  let doc = drawPipe(rowPlan(), [{ node: "H2" }, [8, 3]], PE).doc;
  doc = drawPipe(doc, [{ node: "J1" }, [5, 3]], PE).doc;
  const { doc: after, notes } = edits.removeAll(doc, ["H2"]);
  assert.deepEqual(notes, ["J1, P6, J2 led nowhere any more and went too."]);
  assert.deepEqual(after.layout.pipes.map((pipe) => pipe.id), ["P1", "P2"]);
  assert.ok(find(after, "H3"), "a head stays, though no pipe leads to it any more");
});

test("a pipe removed by itself leaves its ends, but for a junction without any pipe", () => {
  const doc = drawPipe(rowPlan(), [{ node: "H3" }, [12, 5]], PE).doc;
  const { doc: after } = edits.removeAll(doc, ["P5"]);
  assert.equal(find(after, "J1"), null);
  assert.equal(pipesAt(after, "H3").length, 1);
});

test("heads forget an area that is removed, and the supply stays", () => {
  assert.ok(!("area" in of(edits.removeAll(rowPlan(), ["A1"]).doc, "H1")));
  assert.throws(() => edits.removeAll(rowPlan(), ["S1"]), /keeps its supply/);
  const all = edits.removeAll(rowPlan(), everyId(rowPlan()));
  assert.deepEqual([[...everyId(all.doc)], all.notes], [["S1"], ["The supply stays; move it to its place instead."]]);
});

test("the whole of each demo plan can be removed and leaves a supply", () => {
  for (const name of ["plain-rectangle", "quince-house", "ferry-lane"]) {
    const { doc } = edits.removeAll(demoPlan(name), everyId(demoPlan(name)));
    assert.deepEqual([...everyId(doc)], ["S"], name);
    assert.deepEqual([doc.layout.pipes, doc.layout.cables, doc.layout.cases], [[], [], []]);
  }
});

test("fields are set and taken away; what changes nothing is no change", () => {
  const doc = rowPlan();
  assert.equal(edits.setProps(doc, "H1", { part: "spray-4", z_m: null }).doc, doc);
  assert.deepEqual(of(edits.setProps(doc, "H1", { from_deg: 450, area: null }).doc, "H1").from_deg, 90);
  assert.equal(edits.setProps(doc, "supply", { static_kpa: 350 }).doc.supply.static_kpa, 350);
  assert.throws(() => edits.setProps(doc, "P1", { label: "Main" }), /“label” is nothing/);
  assert.throws(() => edits.setProps(doc, "H1", { id: "H9" }), /Rename/);
});

test("a junction becomes a head and back, with the fields of its kind", () => {
  const head = edits.setProps(bent(), "J1", { kind: "head", part: "spray-4", from_deg: 10, sweep_deg: 90 }).doc;
  assert.deepEqual(of(head, "J1"), { id: "J1", kind: "head", at: [15, 9], part: "spray-4", from_deg: 10, sweep_deg: 90 });
  assert.deepEqual(of(edits.setProps(head, "J1", { kind: "junction" }).doc, "J1"), { id: "J1", kind: "junction", at: [15, 9] });
  assert.throws(() => edits.setProps(bent(), "J1", { kind: "head" }), /Choose the part/);
  assert.throws(() => edits.setProps(bent(), "J1", { kind: "supply" }), /supply/);
  assert.throws(() => edits.setProps(bent(), "J1", { kind: "controller", part: "x" }), /remove its pipes/);
});

test("a new id holds wherever the old one was named", () => {
  const { doc, ids } = edits.renameId(rowPlan(), "V1", "front");
  assert.deepEqual([ids, of(doc, "P1").to, of(doc, "K1").to, doc.layout.cases[0].open], [["front"], "front", "front", ["front"]]);
  assert.equal(of(edits.renameId(rowPlan(), "A1", "lawn").doc, "H2").area, "lawn");
  assert.throws(() => edits.renameId(rowPlan(), "V1", "H1"), /already/);
  assert.throws(() => edits.renameId(rowPlan(), "V1", "-x"), /begins with/);
});

test("levels and notes that came without an id get one", () => {
  const { doc, ids } = edits.withIds(demoPlan("quince-house"));
  assert.equal(new Set(ids).size, 17);
  assert.ok([...doc.ground.levels, ...doc.layout.notes].every((one) => one.id));
  assert.equal(edits.withIds(doc).doc, doc);
  assert.deepEqual(addNote(doc, [1, 1], "x").ids, ["N3"]);
});

test("a plan that is still empty takes a supply first", () => {
  const { doc } = setSupply({ format: "plan/1" }, [1, 2]);
  assert.deepEqual([doc.supply, doc.layout.nodes], [{ at: [1, 2] }, [{ kind: "supply", at: [1, 2], id: "S1" }]]);
});
