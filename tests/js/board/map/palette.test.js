// The board and the printed plan are one drawing: each colour of the board's palette is one of the plan's.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import * as palette from "../../../../static/js/board/map/styles/palette.js";

const root = new URL("../../../../", import.meta.url);
const printed = readFileSync(new URL("design/drawing/palette.py", root), "utf8");
const plan_page = readFileSync(new URL("static/css/plan.css", root), "utf8");

function coloursOf(value) {
  if (typeof value === "string") return /^#[0-9a-f]{6}$/.test(value) ? [value] : [];
  return typeof value === "object" ? Object.values(value).flatMap(coloursOf) : [];
}

test("every colour comes from the printed plan, the mark from the plan's page", () => {
  const { PICKED, ...rest } = palette;
  const missing = coloursOf(rest).filter((colour) => !printed.includes(colour));
  assert.deepEqual(missing, []);
  assert.ok(coloursOf(rest).length > 30);
  assert.ok(plan_page.includes(PICKED));
});

test("the zones have the colours of the plan, in its order", () => {
  const [, list] = printed.match(/ZONE_COLOURS = \(([^)]*)\)/);
  assert.deepEqual(palette.ZONE_COLOURS, [...list.matchAll(/"(#[0-9a-f]{6})"/g)].map(([, colour]) => colour));
});
