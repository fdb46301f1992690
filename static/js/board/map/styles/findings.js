// An octagon for stop, a triangle for a warning, a square for a note: the shape tells, colour helps.
import { brushStyle, disc, ring, square, words } from "./brush.js";
import { ALERT, INK, NOTE, PAPER, WARN } from "./palette.js";

const OCTAGON = [[-3.4, -8], [3.4, -8], [8, -3.4], [8, 3.4], [3.4, 8], [-3.4, 8], [-8, 3.4], [-8, -3.4]];
const TRIANGLE = [[0, -9.5], [9.5, 7], [-9.5, 7]];
const LOOKS = {
  stop: { points: OCTAGON, fill: ALERT, edge: PAPER, ink: PAPER, sign: "!", size: 12, y: 0.5 },
  warn: { points: TRIANGLE, fill: PAPER, edge: WARN, ink: WARN, sign: "!", size: 11, y: 1.5 },
  note: { points: square(7), fill: PAPER, edge: NOTE, ink: NOTE, sign: "i", size: 11, y: 0.5 },
};

function drawBadge(context, { entity }) {
  const look = LOOKS[entity.severity];
  context.translate(13, -13);
  ring(context, look.points, { fill: look.fill, stroke: look.edge, width: 1.6 });
  words(context, look.sign, { color: look.ink, size: look.size, bold: true, y: look.y });
  if (entity.count > 1) drawCount(context, entity.count);
}

function drawCount(context, count) {
  context.translate(9, -8);
  disc(context, 6.5, { fill: PAPER, stroke: INK, width: 1 });
  words(context, String(count), { color: INK, size: 9, bold: true, y: 0.5 });
}

const STYLES = {
  note: brushStyle(drawBadge, { zIndex: 0 }),
  warn: brushStyle(drawBadge, { zIndex: 1 }),
  stop: brushStyle(drawBadge, { zIndex: 2 }),
};

export function findingStyle(feature) {
  return STYLES[feature.entity.severity];
}
