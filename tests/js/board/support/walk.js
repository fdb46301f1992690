// Random edits of every kind, the same ones for the same seed.

import assert from "node:assert/strict";

import { turnArc } from "../../../../static/js/board/plan/arcs.js";
import * as edits from "../../../../static/js/board/plan/edits.js";
import * as ground from "../../../../static/js/board/plan/ground_edits.js";
import { listOf } from "../../../../static/js/board/plan/groups.js";
import { everyId, find, handlesOf } from "../../../../static/js/board/plan/lookup.js";
import * as network from "../../../../static/js/board/plan/network_edits.js";
import { EditRefused } from "../../../../static/js/board/plan/refused.js";
import { deepFrozen, seeded } from "./plans.js";

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
  merge: (doc, pick) => network.mergeNodes(doc, pick.id(doc), pick.id(doc)),
  mergeJunction: (doc, pick) => network.mergeNodes(doc, listOf(doc, "nodes").find((node) => node.kind === "junction")?.id ?? "none", pick.id(doc)),
  attach: (doc, pick) => network.attachNode(doc, pick.id(doc), pick.one(listOf(doc, "pipes"))?.id ?? "none"),
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

/**
 * A function that gives the next document and the kind of edit, frozen to the bottom; a refused edit gives the same one.
 * @param {number} seed @returns {(doc: object) => {doc: object, kind: string}}
 */
export function walker(seed) {
  const pick = chooser(seeded(seed));
  return (doc) => {
    const kind = pick.one(Object.keys(EDITS));
    return { kind, doc: deepFrozen(attempt(EDITS[kind], doc, pick)) };
  };
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
