// A control cable runs beside its pipe, so that both stay visible.
import { Stroke, Style } from "../ol.js";
import { CABLE } from "./palette.js";

const CABLE_STYLE = new Style({
  stroke: new Stroke({ color: CABLE, width: 1.3, lineDash: [5, 2, 1, 2], lineCap: "butt", offset: 4.5 }),
});

export function cableStyle() {
  return CABLE_STYLE;
}
