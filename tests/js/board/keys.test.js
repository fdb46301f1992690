import assert from "node:assert/strict";
import test from "node:test";

import { COMMANDS, arrowStep, keyName, meaningOf, ownsItsKeys } from "../../../static/js/board/shortcuts.js";
import { neighbourOf, readingOrder } from "../../../static/js/board/tools/reading_order.js";
import { nodeMeant } from "../../../static/js/board/tools/which_node.js";

const tools = [{ name: "lawn", key: "L" }];
const pressed = (key, more = {}) => ({ key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...more });

test("keys are named as in the list that people read", () => {
  assert.equal(keyName(pressed("z", { ctrlKey: true, shiftKey: true })), "Ctrl+Shift+Z");
  assert.equal(keyName(pressed("z", { metaKey: true })), "Ctrl+Z");
  assert.equal(keyName(pressed("?", { shiftKey: true })), "?");
  assert.equal(keyName(pressed("Shift", { shiftKey: true })), "");
});

test("a letter means a tool, with Ctrl it means a command or nothing", () => {
  assert.deepEqual(meaningOf(pressed("l"), tools), { tool: "lawn" });
  assert.deepEqual(meaningOf(pressed("y", { ctrlKey: true }), tools), { command: "redo" });
  assert.equal(meaningOf(pressed("l", { ctrlKey: true }), tools), null);
  assert.equal(meaningOf(pressed("l", { altKey: true }), tools), null);
});

test("no key means two commands", () => {
  const keys = COMMANDS.flatMap((command) => command.keys);
  assert.equal(new Set(keys).size, keys.length);
});

test("fields keep their keys, buttons and check boxes do not", () => {
  const element = (tagName, type) => ({ tagName, type, closest: () => null });
  assert.ok(ownsItsKeys(element("INPUT", "text")));
  assert.ok(ownsItsKeys(element("SELECT")));
  assert.ok(!ownsItsKeys(element("INPUT", "checkbox")));
  assert.ok(!ownsItsKeys(element("BUTTON")));
  assert.ok(ownsItsKeys({ tagName: "BUTTON", closest: () => ({}) }), "a button in an open dialog");
});

test("arrow keys step a tenth of a metre, a metre, a centimetre", () => {
  assert.deepEqual(arrowStep(pressed("ArrowLeft")), [-0.1, 0]);
  assert.deepEqual(arrowStep(pressed("ArrowUp", { shiftKey: true })), [0, 1]);
  assert.deepEqual(arrowStep(pressed("ArrowDown", { altKey: true })), [0, -0.01]);
  assert.equal(arrowStep(pressed("ArrowDown", { ctrlKey: true })), null);
});

const plan = {
  ground: { areas: [{ id: "lawn", outline: [[0, 0], [10, 0], [10, 10], [0, 10]] }] },
  layout: {
    nodes: [
      { id: "H2", kind: "head", at: [10, 5] }, { id: "H1", kind: "head", at: [0, 5.1] },
      { id: "V1", kind: "valve", at: [-1, 0] }, { id: "V2", kind: "valve", at: [-1, 0] },
      { id: "C", kind: "controller", at: [-1, 0] },
    ],
    pipes: [{ id: "P1", from: "V1", to: "H1" }],
    cables: [{ id: "K1", from: "C", to: "V2" }],
  },
};

test("Tab reads rows from the top left, a pipe where it begins, and ends at either end", () => {
  const order = readingOrder(plan);
  assert.equal(order[0], "lawn");
  assert.ok(order.indexOf("H1") < order.indexOf("H2"));
  assert.ok(order.indexOf("H2") < order.indexOf("V1"));
  assert.equal(neighbourOf(plan, [], true), "lawn");
  assert.equal(neighbourOf(plan, ["lawn"], false), null);
  assert.equal(neighbourOf(plan, [order.at(-1)], true), null);
});

test("of two valves in one box a pipe takes the one with fewer pipes, a cable the one without a cable", () => {
  assert.equal(nodeMeant(plan, [-1, 0]).id, "V2");
  assert.equal(nodeMeant(plan, [-1, 0], { not: ["V2"] }).id, "V1");
  assert.equal(nodeMeant(plan, [-1, 0], { wants: "cable", not: ["C"] }).id, "V1");
  assert.equal(nodeMeant(plan, [-1, 0], { wants: "cable" }).id, "C");
  assert.equal(nodeMeant(plan, [3, 3]), null);
});
