// The two walls of a duct; one that lies there already is drawn without gaps.
import { Stroke, Style } from "../ol.js";
import { INK } from "./palette.js";

function walls(lineDash) {
  return [5.5, -5.5].map(
    (offset) => new Style({ stroke: new Stroke({ color: INK, width: 1.3, lineDash, offset, lineCap: "butt" }) }),
  );
}

const TO_LAY = walls([3, 2]);
const THERE = walls(undefined);

export function sleeveStyle(feature) {
  return feature.entity.existing ? THERE : TO_LAY;
}
