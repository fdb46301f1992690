// The board and the printed plan are one drawing: each colour of the board's palette is one of the plan's.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import * as palette from "../../../../static/js/board/map/styles/palette.js";

const root = new URL("../../../../", import.meta.url);
const printed = readFileSync(new URL("design/drawing/palette.py", root), "utf8");
const plan_page = readFileSync(new URL("static/css/plan.css", root), "utf8");
const pages = readFileSync(new URL("static/css/app.css", root), "utf8");

function coloursOf(value) {
  if (typeof value === "string") return /^#[0-9a-f]{6}$/.test(value) ? [value] : [];
  return typeof value === "object" ? Object.values(value).flatMap(coloursOf) : [];
}

test("every colour comes from the printed plan, or from the pages' own style", () => {
  const { PICKED, WARN, NOTE, ...rest } = palette;
  const missing = coloursOf(rest).filter((colour) => !printed.includes(colour));
  assert.deepEqual(missing, []);
  assert.ok(coloursOf(rest).length > 30);
  assert.ok(plan_page.includes(PICKED));
  assert.ok(pages.includes(`--warn: ${WARN}`));
  assert.ok(pages.includes(`--note: ${NOTE}`));
});

test("the zones have the colours of the plan, in its order", () => {
  const [, list] = printed.match(/ZONE_COLOURS = \(([^)]*)\)/);
  assert.deepEqual(palette.ZONE_COLOURS, [...list.matchAll(/"(#[0-9a-f]{6})"/g)].map(([, colour]) => colour));
});
