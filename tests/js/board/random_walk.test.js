// Hundreds of edits in random order: what must hold after each, and that undo leads all the way back.

import assert from "node:assert/strict";
import { test } from "node:test";

import { createStore } from "../../../static/js/board/history.js";
import { turnArc } from "../../../static/js/board/plan/arcs.js";
import * as edits from "../../../static/js/board/plan/edits.js";
import { faults } from "../../../static/js/board/plan/faults.js";
import * as ground from "../../../static/js/board/plan/ground_edits.js";
import { GROUPS, listOf } from "../../../static/js/board/plan/groups.js";
import { everyId, find, handlesOf, supplyNode } from "../../../static/js/board/plan/lookup.js";
import * as network from "../../../static/js/board/plan/network_edits.js";
import { EditRefused } from "../../../static/js/board/plan/refused.js";
import { deepFrozen, demoPlan, seeded } from "./support/plans.js";

const STEPS = 400;

function chooser(random) {
  const one = (list) => list[Math.floor(random() * list.length)];
  const place = () => [random() * 40 - 5, random() * 40 - 5];
  return {
    one,
    place,
    random,
    id: (doc) => one([...everyId(doc), "supply"]),
    some: (doc) => [...everyId(doc)].filter(() => random() < 0.1),
    line: () => Array.from({ length: 2 + Math.floor(random() * 3) }, place),
    box([x, y]) {
      const [w, h] = [1 + random() * 6, 1 + random() * 6];
      return [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
    },
  };
}

// On a node, on a pipe, in the open, or deliberately beside a node that is there.
function drawn(doc, pick) {
  const nodes = listOf(doc, "nodes").filter((node) => node.kind !== "controller");
  const node = nodes.length ? pick.one(nodes) : null;
  if (!node || pick.random() < 0.4) return pick.place();
  return pick.one([{ node: node.id }, node.at, { at: node.at, node: null }]);
}

const EDITS = {
  area: (doc, pick) => ground.addArea(doc, pick.box(pick.place())),
  surface: (doc, pick) => ground.addSurface(doc, pick.box(pick.place()), { kind: "building" }),
  service: (doc, pick) => ground.addService(doc, pick.line()),
  level: (doc, pick) => ground.addLevel(doc, pick.place(), { z_m: 1 }),
  mark: (doc, pick) => ground.addMark(doc, pick.place()),
  note: (doc, pick) => ground.addNote(doc, pick.place(), { text: "Mind the step" }),
  hole: (doc, pick) => ground.addHole(doc, pick.one(listOf(doc, "areas"))?.id ?? "none", pick.box(pick.place())),
  cut: (doc, pick) => ground.splitOutline(doc, pick.id(doc), pick.line()),
  join: (doc, pick) => ground.joinOutlines(doc, listOf(doc, "areas").slice(0, 2).map((area) => area.id)),
  head: (doc, pick) => network.addNode(doc, { kind: "head", part: "spray-4", at: pick.place() }),
  headOn: (doc, pick) => headOnPipe(doc, pick),
  pipe: (doc, pick) => network.drawPipe(doc, [drawn(doc, pick), pick.place(), drawn(doc, pick)], { part: "pe-25" }),
  shortPipe: (doc, pick) => network.drawPipe(doc, [drawn(doc, pick), drawn(doc, pick)], { part: "pe-25" }),
  cable: (doc, pick) => network.drawCable(doc, pick.id(doc), pick.id(doc), { part: "cable-5" }),
  sleeve: (doc, pick) => network.addSleeve(doc, pick.line()),
  split: (doc, pick) => network.splitPipe(doc, pick.id(doc), pick.place()),
  heal: (doc, pick) => network.joinPipesAt(doc, pick.id(doc)),
  supply: (doc, pick) => network.setSupply(doc, pick.place()),
  movePoint: (doc, pick) => edits.movePoint(doc, anyHandle(doc, pick), pick.place()),
  removePoint: (doc, pick) => edits.removePoint(doc, anyHandle(doc, pick)),
  insertPoint: (doc, pick) => edits.insertPoint(doc, pick.id(doc), pick.one(["outline", "hole", "path", "via"]), 0, 1, pick.place()),
  move: (doc, pick) => edits.moveAll(doc, pick.some(doc), pick.random(), pick.random()),
  turn: (doc, pick) => edits.turnAll(doc, pick.some(doc), pick.place(), pick.random() * 360),
  copy: (doc, pick) => edits.copyAll(doc, pick.some(doc).slice(0, 6), 3, 2),
  remove: (doc, pick) => edits.removeAll(doc, pick.some(doc).slice(0, 4)),
  removeOne: (doc, pick) => edits.removeAll(doc, [pick.id(doc)]),
  rename: (doc, pick) => edits.renameId(doc, pick.id(doc), `R${Math.floor(pick.random() * 1e6)}`),
  props: (doc, pick) => edits.setProps(doc, pick.id(doc), { label: pick.one(["by the gate", null]) }),
  arc: (doc, pick) => turnArc(doc, pick.id(doc), pick.one(["from", "to", "reach", "turn"]), pick.place()),
};

function anyHandle(doc, pick) {
  return pick.one(handlesOf(doc, pick.id(doc))) ?? { id: "none", place: "at" };
}

function headOnPipe(doc, pick) {
  const pipe = pick.one(listOf(doc, "pipes"));
  const ends = pipe ? [find(doc, pipe.from).entity.at, find(doc, pipe.to).entity.at] : [[0, 0], [1, 1]];
  const at = [0, 1].map((axis) => (ends[0][axis] + ends[1][axis]) / 2);
  return network.addNode(doc, { kind: "head", part: "spray-4", at }, { on: pipe?.id ?? null });
}

function attempt(edit, doc, pick) {
  try {
    return edit(doc, pick).doc;
  } catch (refusal) {
    if (!(refusal instanceof EditRefused)) throw refusal;
    assert.match(refusal.message, /^[^a-z].*\.$/);
    return doc;
  }
}

const SHAPE = /crosses or touches itself|outside the outline|encloses nothing|shorter than|different/;

function checkInvariants(doc, told) {
  const ids = GROUPS.flatMap((group) => listOf(doc, group)).map((entity) => entity.id).filter(Boolean);
  assert.equal(new Set(ids).size, ids.length, `${told}: an id twice`);
  for (const pipe of [...listOf(doc, "pipes"), ...listOf(doc, "cables")]) {
    for (const end of [pipe.from, pipe.to]) assert.equal(find(doc, end)?.group, "nodes", `${told}: ${pipe.id} ends nowhere`);
    assert.notEqual(pipe.from, pipe.to, told);
  }
  assert.deepEqual(supplyNode(doc).at, doc.supply.at, told);
  checkFigures(doc, told);
  const wrong = faults(doc).filter((fault) => !SHAPE.test(fault.sentence));
  assert.deepEqual(wrong, [], told);
}

function checkFigures(doc, told) {
  for (const node of listOf(doc, "nodes")) {
    for (const value of node.at) assert.equal(value, Math.round(value * 1000) / 1000, told);
    if (node.from_deg !== undefined) assert.ok(node.from_deg >= 0 && node.from_deg < 360 && !Object.is(node.from_deg, -0), told);
    if (node.sweep_deg !== undefined) assert.ok(node.sweep_deg > 0 && node.sweep_deg <= 360, told);
  }
}

for (const [seed, name] of [[1, "plain-rectangle"], [2, "quince-house"], [3, "ferry-lane"], [4, "quince-house"]]) {
  test(`${STEPS} edits of ${name} from seed ${seed} keep a document whole and can all be undone`, () => {
    const pick = chooser(seeded(seed));
    const first = demoPlan(name);
    const store = createStore(first);
    const done = {};
    for (let i = 0; i < STEPS; i += 1) {
      const kind = pick.one(Object.keys(EDITS));
      const next = deepFrozen(attempt(EDITS[kind], store.document, pick));
      if (next !== store.document) done[kind] = (done[kind] ?? 0) + 1;
      store.apply(kind, next);
      checkInvariants(store.document, `seed ${seed}, step ${i}, ${kind}`);
    }
    const last = store.document;
    assert.ok(Object.keys(done).length > 20, `only ${Object.keys(done)}`);
    while (store.undo()) checkInvariants(store.document, "undo");
    assert.equal(store.document, first);
    while (store.redo());
    assert.equal(store.document, last);
  });
}
