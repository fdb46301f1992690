// Signs drawn straight on the map's canvas: one style for all features of a family, none per frame.
import { Style } from "../ol.js";

// `draw(context, feature, size)` draws about 0,0; `size` is one CSS pixel.
export function brushStyle(draw, { zIndex = 0 } = {}) {
  return new Style({
    zIndex,
    renderer: (at, state) => {
      const { context, feature, pixelRatio } = state;
      context.save();
      context.translate(at[0], at[1]);
      context.scale(pixelRatio, pixelRatio);
      draw(context, feature);
      context.restore();
    },
  });
}

export function disc(context, radius, { fill, stroke, width = 1 }) {
  context.beginPath();
  context.arc(0, 0, radius, 0, Math.PI * 2);
  paint(context, { fill, stroke, width });
}

export function ring(context, points, look) {
  context.beginPath();
  points.forEach(([x, y], index) => (index ? context.lineTo(x, y) : context.moveTo(x, y)));
  context.closePath();
  paint(context, look);
}

export function stroke(context, points, { color, width = 1 }) {
  context.beginPath();
  points.forEach(([x, y], index) => (index ? context.lineTo(x, y) : context.moveTo(x, y)));
  context.strokeStyle = color;
  context.lineWidth = width;
  context.stroke();
}

export function paint(context, { fill, stroke: ink, width = 1 }) {
  if (fill) {
    context.fillStyle = fill;
    context.fill();
  }
  if (ink) {
    context.strokeStyle = ink;
    context.lineWidth = width;
    context.stroke();
  }
}

export function words(context, text, { color, size, bold = false, y = 0 }) {
  context.font = `${bold ? "bold " : ""}${size}px system-ui, sans-serif`;
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.fillStyle = color;
  context.fillText(text, 0, y);
}

export function diamond(half) {
  return [[0, -half], [half, 0], [0, half], [-half, 0]];
}

export function square(half) {
  return [[-half, -half], [half, -half], [half, half], [-half, half]];
}
