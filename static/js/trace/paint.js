// How the drawing looks on the picture: outlines, the two scales, and a dot for each point.

import { Feature, Fill, LineString, Point, Polygon, Stroke, Style, Text } from "../board/map/ol.js";
import { BARS, isLine } from "./edits.js";
import { toMap } from "./places.js";

const INKS = { outline: "#1f5f5b", scale: "#9d1c1c", check: "#2c4a78", known: "#7a4b00" };
const DOT_PX = 7;
const HALO = "#ffffff";

/** Features for the layer. @param {{trace: object, mode: string, current: string|null}} state */
export function features({ trace, mode, current }, height) {
  const drawn = mode === "outline" ? current : null;
  return [
    ...trace.outlines.flatMap((one) => outlineFeatures(one, height, one.id === current, one.id === drawn)),
    ...trace.known.map((one) => dot(one.at_px, height, INKS.known, one.point)),
    ...BARS.flatMap((name) => barFeatures(trace[name], name, height)),
  ];
}

function outlineFeatures(outline, height, isCurrent, isDrawn) {
  const path = outline.pixels.map((at) => toMap(at, height));
  const ink = isCurrent ? "#b0005a" : INKS.outline;
  const open = isDrawn || isLine(outline) || path.length < 3;
  const shape = new Feature(open ? new LineString(path) : new Polygon([path]));
  shape.setStyle([stroked(HALO, 5), new Style({
    stroke: new Stroke({ color: ink, width: 2.5 }),
    fill: new Fill({ color: "rgba(31, 95, 91, 0.18)" }),
    text: words(isDrawn ? "" : outline.label || outline.kind.replace("_", " "), ink),
  })]);
  return [shape, ...outline.pixels.map((at, place) => dot(at, height, ink, isDrawn && place === 0 ? "first" : ""))];
}

function barFeatures(bar, name, height) {
  const ends = [bar?.first_px, bar?.second_px].filter(Boolean);
  const dots = ends.map((at, place) => dot(at, height, INKS[name], [bar.first, bar.second][place] || ""));
  if (ends.length < 2) return dots;
  const line = new Feature(new LineString(ends.map((at) => toMap(at, height))));
  const said = `${name === "scale" ? "Scale" : "Check"} ${bar.length}`.trim();
  line.setStyle([stroked(HALO, 5), new Style({
    stroke: new Stroke({ color: INKS[name], width: 2.5, lineDash: name === "check" ? [3, 6] : [10, 5] }),
    text: words(said, INKS[name], -14),
  })]);
  return [line, ...dots];
}

function dot(at, height, ink, name) {
  const feature = new Feature(new Point(toMap(at, height)));
  feature.setStyle([
    new Style({ renderer: ([x, y], state) => ring(state.context, x, y, state.pixelRatio, ink), zIndex: 2 }),
    new Style({ text: words(name, ink, -18), zIndex: 3 }),
  ]);
  return feature;
}

function ring(context, x, y, ratio, ink) {
  context.beginPath();
  context.arc(x, y, DOT_PX * ratio, 0, 2 * Math.PI);
  context.fillStyle = "rgba(255, 255, 255, 0.65)";
  context.fill();
  context.lineWidth = 2.5 * ratio;
  context.strokeStyle = ink;
  context.stroke();
  context.beginPath();
  context.arc(x, y, 1.5 * ratio, 0, 2 * Math.PI);
  context.fillStyle = ink;
  context.fill();
}

function stroked(color, width) {
  return new Style({ stroke: new Stroke({ color, width }) });
}

function words(text, ink, offsetY = 0) {
  return new Text({
    text: text || "", font: "600 14px system-ui, sans-serif", offsetY, overflow: true,
    fill: new Fill({ color: ink }), stroke: new Stroke({ color: HALO, width: 4 }),
  });
}
