// What is selected, what a finding points at, and the handles of a selection.
import { brushStyle, diamond, disc, ring, square } from "./brush.js";
import { Fill, Stroke, Style } from "../ol.js";
import { PAPER, PICKED } from "./palette.js";

function lineStyle(width, lineDash, fill) {
  return new Style({
    stroke: new Stroke({ color: PICKED, width, lineDash }),
    fill: fill ? new Fill({ color: fill }) : undefined,
  });
}

function ringStyle(radius, width, dash) {
  return brushStyle((context) => {
    disc(context, radius, { stroke: PAPER, width: width + 2 });
    context.setLineDash(dash);
    disc(context, radius, { stroke: PICKED, width });
    context.setLineDash([]);
  });
}

const SELECTED = { Point: ringStyle(12, 2.4, []), line: lineStyle(2.4, undefined, `${PICKED}12`) };
const POINTED = { Point: ringStyle(19, 2.6, [5, 3]), line: lineStyle(3.4, [8, 5], `${PICKED}10`) };

function lookup(styles) {
  return (feature) => (feature.getGeometry().getType() === "Point" ? styles.Point : styles.line);
}

export const selectedStyle = lookup(SELECTED);
export const pointedStyle = lookup(POINTED);

const SHAPES = {
  via: (context) => ring(context, diamond(6.5), { fill: PAPER, stroke: PICKED, width: 2 }),
  corner: (context) => ring(context, square(5), { fill: PAPER, stroke: PICKED, width: 2 }),
  round: (context) => disc(context, 6.5, { fill: PAPER, stroke: PICKED, width: 2 }),
  middle: (context) => disc(context, 4, { fill: `${PAPER}cc`, stroke: PICKED, width: 1.2 }),
};
const SHAPE_OF = { via: "via", outline: "corner", hole: "corner", path: "corner", middle: "middle", between: "middle" };
const HANDLES = Object.fromEntries(
  Object.entries(SHAPES).map(([name, draw]) => [name, brushStyle(draw)]),
);

export function handleStyle(feature) {
  return HANDLES[SHAPE_OF[feature.entity.place] ?? "round"];
}
