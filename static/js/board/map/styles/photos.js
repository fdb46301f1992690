// Where a photo was taken: a picture's corner, with a wedge where it looked; and points measured weakly.
import { brushStyle, disc, paint, ring, stroke } from "./brush.js";
import { ALERT, FAINT_INK, INK, PAPER } from "./palette.js";

function drawPhoto(context, { entity }) {
  if (entity.looks_deg !== null && entity.looks_deg !== undefined) wedge(context, entity.looks_deg);
  ring(context, [[-7, -5.5], [7, -5.5], [7, 5.5], [-7, 5.5]], { fill: PAPER, stroke: INK, width: 1.2 });
  stroke(context, [[-5, 3.5], [-1.5, -1], [1, 2], [2.8, 0], [5, 3.5]], { color: FAINT_INK, width: 1.1 });
}

function wedge(context, bearing_deg) {
  const middle = ((bearing_deg - 90) * Math.PI) / 180;
  context.beginPath();
  context.moveTo(0, 0);
  context.arc(0, 0, 24, middle - 0.38, middle + 0.38);
  context.closePath();
  paint(context, { fill: `${INK}33`, stroke: INK, width: 0.8 });
}

function drawWeak(context) {
  context.setLineDash([3, 2]);
  disc(context, 9, { stroke: ALERT, width: 1.6 });
  context.setLineDash([]);
}

const PHOTO = brushStyle(drawPhoto, { zIndex: 0 });
const WEAK = brushStyle(drawWeak, { zIndex: 1 });

export function photoStyle() {
  return PHOTO;
}

export function weakStyle() {
  return WEAK;
}
