// Plane geometry, and the plain rectangle's hand-made plan in tests/plans/s1.json.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";

import { commonFields, commonValue, fieldsOf, textOf } from "../../../static/js/board/panels/fields.js";
import { find } from "../../../static/js/board/plan/lookup.js";
import { boxOf, idsInside, toggled } from "../../../static/js/board/tools/box.js";
import { createCross, placeAfter } from "../../../static/js/board/tools/cross.js";
import { outlineToCut, pipeAt } from "../../../static/js/board/tools/cut.js";
import { edgeAt, grips, isCorner } from "../../../static/js/board/tools/handles.js";
import { describe } from "../../../static/js/board/tools/wording.js";

const s1 = JSON.parse(readFileSync(new URL("../../plans/s1.json", import.meta.url)));
const parts = { head: [{ code: "rotary-6", label: "Rotary 6", arc: "fixed", reach_m: 6 }] };
const data = { parts, site: { units: "metric" } };

test("a box takes what lies wholly inside, whichever corner it was drawn from", () => {
  const first = idsInside(s1, boxOf([-0.5, -0.5], [13, 0.5]));
  assert.deepEqual(first.sort(), ["A1", "A2", "A3", "LA1", "LA2"]);
  assert.deepEqual(idsInside(s1, boxOf([13, 0.5], [-0.5, -0.5])).sort(), first);
  assert.deepEqual(toggled(["a", "b"], "a"), ["b"]);
  assert.deepEqual(toggled(["a"], "b"), ["a", "b"]);
});

test("a head is held at its place and by the two ends and the throw of its arc", () => {
  const held = grips(s1, "A1", { parts });
  assert.deepEqual(held.map((grip) => grip.which ?? grip.place), ["from", "to", "reach", "at"]);
  assert.deepEqual(held.map((grip) => grip.at.map(Math.round)), [[0, 6], [6, 0], [4, 4], [0, 0]]);
});

test("an outline is held at its corners and between them", () => {
  const held = grips(s1, "lawn");
  assert.deepEqual(held.filter(isCorner).length, 4);
  assert.deepEqual(held.filter((grip) => grip.insert).map((grip) => grip.at), [[12, 0], [24, 6], [12, 12], [0, 6]]);
  assert.deepEqual(edgeAt(s1, "lawn", [7, -0.3]).at, [7, 0]);
  assert.equal(edgeAt(s1, "lawn", [7, -0.3]).index, 0);
  assert.deepEqual(grips(s1, "lawn", { metresPerPixel: 1 }).filter((grip) => grip.insert), [], "no room from afar");
});

test("a cut is for the outline that it crosses, the selected one first; a point for the pipe under it", () => {
  assert.equal(outlineToCut(s1, [[12, -1], [12, 13]], []), "lawn");
  assert.equal(outlineToCut(s1, [[12, -1], [12, 30]], ["house"]), "house");
  assert.equal(outlineToCut(s1, [[5, 5], [6, 6]], []), null);
  assert.equal(pipeAt(s1, [3, 0.01]), "LA1");
  assert.equal(pipeAt(s1, [3, 1]), null);
});

test("several things show the fields that they share", () => {
  const found = (...ids) => ids.map((id) => find(s1, id));
  assert.deepEqual(fieldsOf(find(s1, "lawn")).map((field) => field.name), ["label", "cover", "soil", "slope_pct"]);
  assert.deepEqual(commonFields(found("A1", "A2")).map((field) => field.name), ["part", "from_deg", "sweep_deg", "reach_m", "area", "z_m"]);
  assert.deepEqual(commonFields(found("A1", "V1")).map((field) => field.name), ["z_m"]);
  assert.deepEqual(commonValue([{ part: "a" }, { part: "a" }], "part"), { value: "a", mixed: false });
  assert.deepEqual(commonValue([{ part: "a" }, { part: "b" }], "part"), { value: null, mixed: true });
});

test("values stand in the site's units", () => {
  assert.equal(textOf("reach", 6, "metric"), "6 m");
  assert.equal(textOf("reach", 7.3152, "us"), "24 ft"); // 24 x 0.3048 m
  assert.equal(textOf("angle", 90, "us"), "90°");
  assert.equal(textOf("depth", null, "metric"), "");
});

test("the keyboard's cross steps, follows the pointer, and jumps from corner to corner", () => {
  const cross = createCross();
  assert.ok(cross.moved({ key: "ArrowRight", shiftKey: true }));
  assert.ok(cross.moved({ key: "ArrowDown" }));
  assert.deepEqual([cross.at, cross.byKeys], [[1, -0.1], true]);
  assert.ok(!cross.moved({ key: "Enter" }));
  cross.follow([3, 3]);
  assert.equal(cross.byKeys, false);
  const first = placeAfter(s1, [99, 99], true);
  assert.deepEqual(first.id, "house");
  assert.notDeepEqual(placeAfter(s1, first.at, true).at, first.at);
});

test("what is selected is told in one line", () => {
  assert.equal(describe(s1, "lawn", data), "Area lawn, Lawn, 288.0 m².");
  assert.equal(describe(s1, "A1", data), "Head A1, Rotary 6, 0.00; 0.00.");
  assert.equal(describe(s1, "LA1", { parts: {}, site: { units: "us" } }), "Pipe LA1, pvc-25, 19.69 ft."); // 6 m
});
