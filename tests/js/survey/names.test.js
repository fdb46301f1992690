import assert from "node:assert/strict";
import test from "node:test";

import { holdsBothTapes, nextName, nextStop, pastedLines } from "../../../static/js/survey/names.js";

test("the next name is one above the largest number", () => {
  assert.equal(nextName([]), "1");
  assert.equal(nextName(["1", "2", "A", "7", "P9"]), "8");
});

test("a pasted page is cut into its lines", () => {
  assert.deepEqual(pastedLines("15.52\t25.00 R\r\n\n 25 15.52\n"), ["15.52 25.00 R", "25 15.52"]);
});

const stops = (...rows) => rows.flatMap(([list, isRowFilled, fields]) => Array(fields).fill({ list, isRowFilled }));

test("Enter goes to the next figure, then to the next row", () => {
  const page = stops(["tie", true, 2], ["tie", false, 2], ["outline", false, 1]);
  assert.equal(nextStop(page, 0), 1);
  assert.equal(nextStop(page, 1), 2);
});

test("Enter in an empty row goes to the next list", () => {
  const page = stops(["tie", true, 2], ["tie", false, 2], ["outline", false, 1]);
  assert.equal(nextStop(page, 2), 4);
  assert.equal(nextStop(page, 4), -1);
});

test("a short list is left at its first empty row", () => {
  const page = stops(["mark", false, 1], ["mark", true, 1], ["mark", false, 1], ["tie", false, 2]);
  assert.equal(nextStop(page, 1, new Set(["mark"])), 3);
  assert.equal(nextStop(page, 1), 2);
});

test("both tapes of a point in one field are told from one tape", () => {
  for (const both of ["15.52 25.00", "15,52 25 R", " 4 14.56 left", `50' 11" ; 82' 3" R`]) assert.ok(holdsBothTapes(both), both);
  for (const one of ["", "15.52", `50' 11"`, "12 3/4", "15.52 m"]) assert.ok(!holdsBothTapes(one), one);
});
