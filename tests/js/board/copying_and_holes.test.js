// Plane geometry worked by hand: a lawn of 24 x 12 with a terrace beside it.
import assert from "node:assert/strict";
import test from "node:test";

import { createStore } from "../../../static/js/board/history.js";
import { commonFields } from "../../../static/js/board/panels/fields.js";
import { find } from "../../../static/js/board/plan/lookup.js";
import { grips } from "../../../static/js/board/tools/handles.js";
import { areaToHole } from "../../../static/js/board/tools/hole.js";
import { createActions, pasteOffset } from "../../../static/js/board/tools/select_actions.js";
import { createCross } from "../../../static/js/board/tools/cross.js";

const POND = [[4, 4], [8, 4], [8, 6], [4, 6]];
const doc = {
  format: "plan/1",
  ground: {
    areas: [
      { id: "A1", cover: "turf", outline: [[0, 0], [24, 0], [24, 12], [0, 12]] },
      { id: "A2", cover: "bed", outline: [[3, 3], [10, 3], [10, 8], [3, 8]], holes: [POND] },
    ],
    surfaces: [{ id: "G1", kind: "paving", outline: [[30, 0], [34, 0], [34, 4], [30, 4]] }],
  },
  layout: {},
};

function board() {
  const store = createStore(doc);
  const said = [];
  const context = { store, cross: createCross(), say: (sentence) => said.push(sentence) };
  return { store, said, cross: context.cross, actions: createActions(context) };
}

test("a hole is for the selected area, else for the smallest round most of its corners", () => {
  assert.equal(areaToHole(doc, POND, []), "A2");
  assert.equal(areaToHole(doc, POND, ["A1"]), "A1");
  assert.equal(areaToHole(doc, [[14, 4], [18, 4], [18, 6]], ["A2"]), "A1");
  assert.equal(areaToHole(doc, [[31, 1], [33, 1], [32, 2]], []), null, "paving has no holes");
});

test("the corners of a hole and the middles between them are held like those of the outline", () => {
  const held = grips(doc, "A2").filter((grip) => grip.place === "hole");
  assert.deepEqual(held.filter((grip) => !grip.insert).map((grip) => grip.at), POND);
  assert.deepEqual(held.filter((grip) => grip.insert).map(({ at, ring, index }) => [at, ring, index]),
    [[[6, 4], 0, 0], [[8, 5], 0, 1], [[6, 6], 0, 2], [[4, 5], 0, 3]]);
});

test("one thing has an id to change, several and the supply's readings have not", () => {
  const names = (...found) => commonFields(found).map((field) => field.name);
  assert.equal(names(find(doc, "A1")).at(-1), "id");
  assert.ok(!names(find(doc, "A1"), find(doc, "A2")).includes("id"));
  assert.ok(!names({ group: "supply", entity: { at: [0, 0] } }).includes("id"));
});

test("moves by arrow keys of one selection are undone as one, after another act anew", () => {
  const { store, actions } = board();
  store.select(["G1"]);
  for (let n = 0; n < 3; n += 1) actions.move([0.1, 0]);
  store.select(["A1"]);
  store.select(["G1"]);
  actions.move([0, 1]);
  assert.deepEqual(store.document.ground.surfaces[0].outline[0], [30.3, 1]);
  store.undo();
  assert.deepEqual(store.document.ground.surfaces[0].outline[0], [30.3, 0]);
  store.undo();
  assert.equal(store.document, doc);
});

test("a copy lands with its middle under the pointer, beside the first where the pointer has not moved", () => {
  assert.deepEqual(pasteOffset([30, 0, 34, 4], [40.004, 10], [31, 1]), [8, 8]);
  assert.deepEqual(pasteOffset([30, 0, 34, 4], [31, 1.02], [31, 1]), [1, -1]);
  const { store, said, cross, actions } = board();
  actions.paste();
  assert.equal(said.at(-1), "Nothing is copied.");
  store.select(["G1"]);
  actions.copy();
  cross.follow([40, 10]);
  actions.paste();
  actions.paste();
  const corners = store.document.ground.surfaces.map((surface) => surface.outline[0]);
  assert.deepEqual(corners, [[30, 0], [38, 8], [39, 7]]);
});
