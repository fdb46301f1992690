// Faint lines at round distances, drawn over the ground and under everything else.
import { roundBelow, metresPerUnit } from "./site_units.js";
import { INK } from "./styles/palette.js";

const WIDEST_PX = 90;

export function gridStep(metresPerPixel, units) {
  const unit_m = metresPerUnit(units);
  return roundBelow((WIDEST_PX * metresPerPixel) / unit_m) * unit_m;
}

function linesBetween(low, high, step) {
  const first = Math.ceil(low / step);
  const count = Math.floor(high / step) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, index) => (first + index) * step);
}

export function drawGrid(context, frameState, units) {
  const { viewState, extent, pixelRatio, size } = frameState;
  const { resolution, center } = viewState;
  const step = gridStep(resolution, units);
  const toX = (x) => ((x - center[0]) / resolution + size[0] / 2) * pixelRatio;
  const toY = (y) => ((center[1] - y) / resolution + size[1] / 2) * pixelRatio;
  context.save();
  context.beginPath();
  for (const x of linesBetween(extent[0], extent[2], step)) {
    context.moveTo(toX(x), 0);
    context.lineTo(toX(x), size[1] * pixelRatio);
  }
  for (const y of linesBetween(extent[1], extent[3], step)) {
    context.moveTo(0, toY(y));
    context.lineTo(size[0] * pixelRatio, toY(y));
  }
  context.strokeStyle = INK;
  context.globalAlpha = 0.12;
  context.lineWidth = pixelRatio;
  context.stroke();
  context.restore();
}
