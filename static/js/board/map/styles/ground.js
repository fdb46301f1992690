// Areas to be watered and what stands on the ground; each kind made once.
import { Fill, Stroke, Style } from "../ol.js";
import { hatch } from "./hatch.js";
import {
  ALERT, AREA_EDGE, AREA_FILLS, EARTH_DARK, EDGE, HATCH_INKS, SURFACE_EDGE, SURFACE_FILLS,
} from "./palette.js";

const HATCHES = {
  building: { spacing: 13, slant: 45 },
  future_work: { spacing: 14, slant: -45 },
  keep_out: { spacing: 10, slant: 45 },
  water: { spacing: 9, slant: 0 },
};
const EDGES = {
  building: { color: EDGE, width: 1.4 },
  future_work: { color: EARTH_DARK, width: 1.2, lineDash: [7, 4] },
  keep_out: { color: ALERT, width: 1.2, lineDash: [3, 3] },
};

const made = new Map();

function once(key, make) {
  if (!made.has(key)) made.set(key, make());
  return made.get(key);
}

function areaStyle(cover) {
  return new Style({
    fill: new Fill({ color: AREA_FILLS[cover] ?? AREA_FILLS.turf }),
    stroke: new Stroke({ color: AREA_EDGE, width: 1 }),
    zIndex: 0,
  });
}

function surfaceStyle(kind) {
  const plain = SURFACE_FILLS[kind] ?? SURFACE_FILLS.paving;
  const color = HATCHES[kind] ? hatch(plain, HATCH_INKS[kind], HATCHES[kind]) : plain;
  return new Style({
    fill: new Fill({ color }),
    stroke: new Stroke(EDGES[kind] ?? { color: SURFACE_EDGE, width: 0.9 }),
    zIndex: 1,
  });
}

export function groundStyle(feature) {
  const { group, entity } = feature;
  if (group === "areas") return once(`area ${entity.cover}`, () => areaStyle(entity.cover));
  return once(`surface ${entity.kind}`, () => surfaceStyle(entity.kind));
}
