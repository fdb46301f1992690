// The points of a line being drawn, and where typed figures lead from them. Pure.

const round_mm = (value) => Math.round(value * 1000) / 1000;

export const atBearing = ([x, y], length_m, bearing_deg) => {
  const turn = (bearing_deg * Math.PI) / 180;
  return [round_mm(x + length_m * Math.sin(turn)), round_mm(y + length_m * Math.cos(turn))];
};

export const bearingTo = ([x, y], [toX, toY]) => {
  const degrees = (Math.atan2(toX - x, toY - y) * 180) / Math.PI;
  return (degrees + 360) % 360;
};

/** The four corners, the first one given, turning left. */
export function boxFrom([x, y], width_m, height_m) {
  const [right, top] = [round_mm(x + width_m), round_mm(y + height_m)];
  return [[x, y], [right, y], [right, top], [x, top]];
}

/**
 * Where typed figures lead: {points} to set, {bearing_deg} to keep to, or {refused}.
 * `from` is the last point or null, `towards` where the guide points, `start` the corner of a rectangle.
 */
export function pointsTyped(figures, { from, towards, start = [0, 0], bearing_deg = null }) {
  if (figures.kind === "place") return { points: [[round_mm(figures.east_m), round_mm(figures.north_m)]] };
  if (figures.kind === "box") return { points: boxFrom(from ?? start, figures.width_m, figures.height_m), box: true };
  if (figures.kind === "bearing") return { bearing_deg: figures.bearing_deg, points: [] };
  if (!from) return { refused: 'Set a first point: click, press Enter, or type a place such as "0; 0".' };
  if (figures.kind === "step") return { points: [[round_mm(from[0] + figures.east_m), round_mm(from[1] + figures.north_m)]] };
  if (figures.kind === "polar") return { points: [atBearing(from, figures.length_m, figures.bearing_deg)] };
  const bearing = bearing_deg ?? (towards && apart(from, towards) ? bearingTo(from, towards) : null);
  if (bearing === null) return { refused: "Point somewhere first, or give a bearing: 24 @ 90." };
  return { points: [atBearing(from, figures.length_m, bearing)] };
}

const apart = (one, other) => Math.hypot(one[0] - other[0], one[1] - other[1]) > 0.005;

/** The points without those that repeat the one before them: a double click sets its place twice. */
export function withoutRepeats(points, { closed = false } = {}) {
  const kept = points.filter((point, index) => index === 0 || apart(point, points[index - 1]));
  while (closed && kept.length > 1 && !apart(kept[0], kept.at(-1))) kept.pop();
  return kept;
}
