// How far each head throws: an outline in its zone's colour over a breath of it.
import { Fill, Stroke, Style } from "../ol.js";
import { zoneColour } from "./palette.js";

const made = new Map();

function sectorStyle(zone) {
  const color = zoneColour(zone);
  return new Style({
    fill: new Fill({ color: `${color}14` }),
    stroke: new Stroke({ color, width: 0.8, lineDash: zone < 0 ? [3, 4] : undefined }),
  });
}

export function arcStyle(feature) {
  const { zone } = feature.look;
  if (!made.has(zone)) made.set(zone, sectorStyle(zone));
  return made.get(zone);
}
