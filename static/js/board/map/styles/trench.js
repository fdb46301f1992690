// A band for the machine, a ladder for the spade, a tube for the bore: told apart without colour.
import { Stroke, Style } from "../ol.js";
import { EARTH, EARTH_DARK, PAPER } from "./palette.js";

// Edges lie under all that is inside, so that none crosses a band where trenches meet.
const EDGES = -1;

function band(color, width, { lineDash, zIndex = 0 } = {}) {
  return new Style({ stroke: new Stroke({ color, width, lineDash, lineCap: "butt" }), zIndex });
}

const METHODS = {
  machine: [band(EARTH_DARK, 8, { zIndex: EDGES }), band(EARTH, 6.6)],
  hand: [band(EARTH, 3.4), band(EARTH_DARK, 11, { lineDash: [1.2, 4.4] })],
  bore: [band(EARTH_DARK, 9, { zIndex: EDGES }), band(PAPER, 6.2)],
};

export function trenchStyle(feature) {
  return METHODS[feature.entity.method] ?? METHODS.machine;
}
