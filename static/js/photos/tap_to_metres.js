// From a tap on the plan's drawing to metres of the site, and back. Pure: numbers in, numbers out.
// x is east and y north on the ground; on the drawing y counts downwards.

// A tap in the window to the drawing's own units. `box` is where the drawing stands in the window,
// `view` its viewBox; the drawing is as large as fits and stands in the middle of its box.
export function toPage(tap, box, view) {
  const scale = Math.min(box.width / view.width, box.height / view.height);
  if (!(scale > 0)) return null;
  const left = box.left + (box.width - view.width * scale) / 2;
  const top = box.top + (box.height - view.height * scale) / 2;
  return [view.x + (tap.x - left) / scale, view.y + (tap.y - top) / scale];
}

// `frame` says where the map sits in the drawing: units per metre, and which metre is at left and top.
export function toMetres([x, y], frame) {
  return [frame.west + (x - frame.left) / frame.scale, frame.north - (y - frame.top) / frame.scale];
}

export function fromMetres([east, north], frame) {
  return [frame.left + (east - frame.west) * frame.scale, frame.top + (frame.north - north) * frame.scale];
}

// Clockwise from north, 0 to 360; null where both places are one.
export function bearingDeg(from, to) {
  const [east, north] = [to[0] - from[0], to[1] - from[1]];
  if (Math.hypot(east, north) < 0.05) return null;
  return ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360;
}
