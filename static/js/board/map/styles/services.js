// Buried services: an ink and a dash of their own, the letter along the line comes with the labels.
import { Stroke, Style } from "../ol.js";
import { SERVICE_INKS } from "./palette.js";

const made = new Map();

function lineStyle(kind, located) {
  const [color] = SERVICE_INKS[kind] ?? SERVICE_INKS.water;
  return new Style({
    stroke: new Stroke({
      color,
      width: located ? 2.4 : 1.5,
      lineDash: kind === "future_drain" ? [4, 5] : [12, 3, 2, 3],
      lineCap: "butt",
    }),
  });
}

export function serviceStyle(feature) {
  const { kind, located } = feature.entity;
  const key = `${kind} ${located}`;
  if (!made.has(key)) made.set(key, lineStyle(kind, located));
  return made.get(key);
}
