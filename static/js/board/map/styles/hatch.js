// Hatched fills as repeating tiles, drawn once each.

function tile(size, draw) {
  const canvas = document.createElement("canvas");
  canvas.width = size;
  canvas.height = size;
  const context = canvas.getContext("2d");
  draw(context, size);
  return context.createPattern(canvas, "repeat");
}

function slanted(context, size, up) {
  const [left, right] = up ? [size, 0] : [0, size];
  context.beginPath();
  for (const shift of [-size, 0, size]) {
    context.moveTo(shift, left);
    context.lineTo(shift + size, right);
  }
  context.stroke();
}

function level(context, size) {
  context.beginPath();
  context.moveTo(0, size / 2);
  context.lineTo(size * 0.6, size / 2);
  context.stroke();
}

// `slant`: 45 rises to the right, -45 falls, 0 is level.
export function hatch(fill, ink, { spacing, slant }) {
  return tile(spacing, (context, size) => {
    context.fillStyle = fill;
    context.fillRect(0, 0, size, size);
    context.strokeStyle = ink;
    context.lineWidth = 0.8;
    if (slant) slanted(context, size, slant > 0);
    else level(context, size);
  });
}
