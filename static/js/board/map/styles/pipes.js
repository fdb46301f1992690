// The wider the bore, the heavier the line; a main is solid, a lateral broken.
import { Stroke, Style } from "../ol.js";
import { FAINT_INK, LATERAL, MAIN } from "./palette.js";

const LEAST_PX = 1.8;
const STEP_PX = 0.9;
const STEPS = 4;
const made = new Map();

// Rank of each bore among those that this plan uses, as on the printed plan.
export function pipeRanks(pipes, parts) {
  const bores = new Map(parts.map((part) => [part.code, part.bore_mm ?? 0]));
  const used = new Set(pipes.map((pipe) => bores.get(pipe.part) ?? 0));
  const order = [...used].sort((a, b) => a - b);
  return new Map(pipes.map((pipe) => [pipe.part, order.indexOf(bores.get(pipe.part) ?? 0)]));
}

export function pipeWidth(rank) {
  return LEAST_PX + Math.min(rank, STEPS) * STEP_PX;
}

function lineStyle(role, rank) {
  const color = { main: MAIN, lateral: LATERAL }[role] ?? FAINT_INK;
  const lineDash = { lateral: [9, 3.5], unknown: [2, 4] }[role];
  return new Style({
    stroke: new Stroke({ color, width: pipeWidth(rank), lineDash, lineCap: lineDash ? "butt" : "round" }),
  });
}

// `look` is {role, rank}; a pipe that no answer of the check knows yet is dotted.
export function pipeStyle(feature) {
  const { role = "unknown", rank = 0 } = feature.look;
  const key = `${role} ${rank}`;
  if (!made.has(key)) made.set(key, lineStyle(role, rank));
  return made.get(key);
}
