// A band for the machine, a ladder for the spade, a tube for the bore: told apart without colour.
import { Stroke, Style } from "../ol.js";
import { EARTH, EARTH_DARK, PAPER } from "./palette.js";

function band(color, width, lineDash) {
  return new Style({ stroke: new Stroke({ color, width, lineDash, lineCap: "butt" }) });
}

const METHODS = {
  machine: [band(EARTH, 8)],
  hand: [band(EARTH, 3.4), band(EARTH_DARK, 11, [1.2, 4.4])],
  bore: [band(EARTH_DARK, 9), band(PAPER, 6.2)],
};

export function trenchStyle(feature) {
  return METHODS[feature.entity.method] ?? METHODS.machine;
}
