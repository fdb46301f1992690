import assert from "node:assert/strict";
import { test } from "node:test";

import { countWords, groupFindings } from "../../../../static/js/board/panels/finding_groups.js";
import { figuresOf } from "../../../../static/js/board/panels/figures.js";
import { movedSentences } from "../../../../static/js/board/panels/moved.js";

const FINDINGS = [
  { key: "a", severity: "note", where: ["P1"] },
  { key: "b", severity: "stop", where: ["H1", "H2"] },
  { key: "c", severity: "warn", where: [] },
  { key: "d", severity: "stop", where: ["H3"] },
];

const keys = (groups) => groups.map(({ severity, findings }) => [severity, findings.map(({ key }) => key)]);

test("what stops comes first, then what to decide, then what to know", () => {
  assert.deepEqual(keys(groupFindings(FINDINGS, [])), [["stop", ["b", "d"]], ["warn", ["c"]], ["note", ["a"]]]);
});

test("findings of what is selected stand before all others, once", () => {
  const groups = groupFindings(FINDINGS, ["H2"]);
  assert.deepEqual(keys(groups), [["own", ["b"]], ["stop", ["d"]], ["warn", ["c"]], ["note", ["a"]]]);
  assert.equal(groups[0].title, "About H2");
});

test("the count says how many of each, and how many gaps", () => {
  assert.equal(countWords(FINDINGS, [{}]), "2 to stop, 1 to decide, 1 to know, 1 gap");
  assert.equal(countWords([], []), "none");
});

test("what moved is short, and says what is new and what is gone", () => {
  assert.deepEqual(movedSentences(null), []);
  const moved = { sentences: ["H3: 2.9 -> 2.6 bar"], findings_new: ["b"], findings_gone: [{ sentence: "V1 opens no head." }] };
  const findings = [{ key: "a", sentence: "Old." }, { key: "b", sentence: "H3 stands too far." }];
  const sentences = ["H3: 2.9 -> 2.6 bar", "New: H3 stands too far.", "Gone: V1 opens no head."];
  assert.deepEqual(movedSentences({ moved, findings }), sentences);
  const many = { moved: { sentences: ["1", "2", "3", "4", "5", "6"] } };
  assert.deepEqual(movedSentences(many), ["1", "2", "3", "4", "and 2 more."]);
});

test("figures are those of the head, pipe or cable that is selected", () => {
  const report = { heads: { H1: { pressure: "2.9 bar", throw: "5.8 m", flow: "6 L/min", zone: "V1" } }, pipes: { P1: { size: "32" } } };
  assert.deepEqual(figuresOf(report, "H1")[0], ["Pressure", "2.9 bar"]);
  assert.deepEqual(figuresOf(report, "P1")[0], ["Size", "32"]);
  assert.deepEqual(figuresOf(report, "lawn"), []);
  assert.deepEqual(figuresOf(null, "H1"), []);
});
