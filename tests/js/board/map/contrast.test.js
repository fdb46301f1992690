// WCAG 2.2 on the board's canvas: words 4.5 to 1 (1.4.3), graphics that carry meaning alone 3 to 1 (1.4.11).
// Words stand on their white halo or on a white sign, so that paper is what is behind them.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";

import * as palette from "../../../../static/js/board/map/styles/palette.js";

const {
  ALERT, AREA_EDGE, AREA_FILLS, CABLE, EARTH, EARTH_DARK, EDGE, FAINT_INK, INK, LATERAL, MAIN, NOTE, NOTE_EDGE,
  PAPER, PICKED, SERVICE_INKS, SURFACE_EDGE, SURFACE_FILLS, WARN, ZONE_COLOURS,
} = palette;
const STYLES = new URL("../../../../static/js/board/map/styles/", import.meta.url);
const inks = Object.values(SERVICE_INKS).map(([ink]) => ink);

// Relative luminance, by its definition in WCAG 2.2.
function luminance(colour) {
  const parts = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255);
  const [r, g, b] = parts.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one, other) {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

function tooFaint(colours, behind, least) {
  return colours.filter((colour) => contrast(colour, behind) < least);
}

test("the measure is that of the standard", () => {
  assert.equal(contrast("#000000", "#ffffff"), 21);
  assert.ok(Math.abs(contrast("#767676", "#ffffff") - 4.54) < 0.01); // the faintest grey for words; from memory
});

test("words can be read on their halo", () => {
  assert.deepEqual(tooFaint([INK, FAINT_INK, ALERT, MAIN, WARN, NOTE, ...inks], PAPER, 4.5), []);
  assert.ok(contrast(PAPER, ALERT) >= 4.5); // the sign for stop
});

test("lines and signs stand out from paper and from lawn", () => {
  const drawn = [INK, FAINT_INK, MAIN, LATERAL, CABLE, EARTH_DARK, ALERT, EDGE, NOTE_EDGE, AREA_EDGE, SURFACE_EDGE,
    SURFACE_FILLS.fence, PICKED, WARN, NOTE, ...inks];
  assert.deepEqual(tooFaint(drawn, PAPER, 3), []);
  assert.deepEqual(tooFaint(drawn, AREA_FILLS.turf, 3), []);
});

test("pipes stand out from the trench that they lie in", () => {
  assert.deepEqual(tooFaint([MAIN, LATERAL], EARTH, 3), []);
});

test("heads stand out from their white rim", () => {
  assert.deepEqual(tooFaint(ZONE_COLOURS, PAPER, 3), []);
});

test("each way of digging has a stroke that stands out", async () => {
  class Kept {
    constructor(look) {
      Object.assign(this, look);
    }
  }
  const none = { Vector: null, VectorImage: null, Image: null };
  globalThis.ol = {
    geom: {}, layer: none, source: {}, interaction: {}, control: {}, proj: {}, style: { Style: Kept, Stroke: Kept },
  };
  const { trenchStyle } = await import("../../../../static/js/board/map/styles/trench.js");
  for (const method of ["machine", "hand", "bore"]) {
    const colours = trenchStyle({ entity: { method } }).map(({ stroke }) => stroke.color);
    assert.ok(tooFaint(colours, PAPER, 3).length < colours.length, method);
  }
});

test("no style has a colour that is not in the palette and so not held to this", () => {
  const strays = readdirSync(STYLES)
    .filter((name) => name !== "palette.js")
    .filter((name) => /"#[0-9a-f]{3,8}"/i.test(readFileSync(new URL(name, STYLES), "utf8")));
  assert.deepEqual(strays, []);
});
