// The arc that a head wants where it stands: a corner's angle, half a circle on an edge, all round inside.

const NEAR_M = 0.3; // a head this close to an edge stands on it
const LOOK_M = 0.02;
const JUMP_DEG = 6;

const ringsOf = (area) => [area.outline, ...(area.holes ?? [])];
const turned = (deg) => ((deg % 360) + 360) % 360;
const tenth = (deg) => Math.round(turned(deg) * 10) / 10 % 360;
const bearing = ([x, y], [toX, toY]) => turned((Math.atan2(toX - x, toY - y) * 180) / Math.PI);
const step = ([x, y], deg) => {
  const turn = (deg * Math.PI) / 180;
  return [x + LOOK_M * Math.sin(turn), y + LOOK_M * Math.cos(turn)];
};

function within(area, [x, y]) {
  let inside = false;
  for (const ring of ringsOf(area)) {
    ring.forEach(([x1, y1], index) => {
      const [x2, y2] = ring[(index + 1) % ring.length];
      if (y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1) inside = !inside;
    });
  }
  return inside;
}

function nearestOnEdge([x, y], [x1, y1], [x2, y2]) {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const along = dx || dy ? Math.max(0, Math.min(1, ((x - x1) * dx + (y - y1) * dy) / (dx * dx + dy * dy))) : 0;
  const foot = [x1 + along * dx, y1 + along * dy];
  return { foot, distance: Math.hypot(x - foot[0], y - foot[1]) };
}

function edgesNear(area, at) {
  const near = [];
  for (const ring of ringsOf(area)) {
    ring.forEach((start, index) => {
      const end = ring[(index + 1) % ring.length];
      const { foot, distance } = nearestOnEdge(at, start, end);
      if (distance <= NEAR_M) near.push({ ring, index, start, end, foot, distance });
    });
  }
  return near.sort((one, other) => one.distance - other.distance);
}

function cornerNear(area, at) {
  let best = null;
  for (const ring of ringsOf(area)) {
    ring.forEach((corner, index) => {
      const distance = Math.hypot(corner[0] - at[0], corner[1] - at[1]);
      if (distance <= NEAR_M && (!best || distance < best.distance)) best = { ring, index, corner, distance };
    });
  }
  return best;
}

// Of the two arcs between the bearings, the one that looks into the area.
function arcBetween(area, foot, one, other) {
  const pick = (from, to) => ({ from_deg: tenth(from), sweep_deg: Math.round(turned(to - from) * 10) / 10 || 360 });
  const middle = one + turned(other - one) / 2;
  return within(area, step(foot, middle)) ? pick(one, other) : pick(other, one);
}

function arcIn(area, at) {
  const corner = cornerNear(area, at);
  if (corner) {
    const { ring, index } = corner;
    const before = ring[(index + ring.length - 1) % ring.length];
    const after = ring[(index + 1) % ring.length];
    return arcBetween(area, corner.corner, bearing(corner.corner, before), bearing(corner.corner, after));
  }
  const [edge] = edgesNear(area, at);
  if (edge) return arcBetween(area, edge.foot, bearing(edge.foot, edge.end), bearing(edge.foot, edge.start));
  return { from_deg: 0, sweep_deg: 360 };
}

/** {area, from_deg, sweep_deg} for a head at this place; area is null where there is none. */
export function guessArc(doc, at, arcKind = "fixed") {
  const areas = doc.ground?.areas ?? [];
  const area = areas.find((one) => within(one, at)) ?? areas.find((one) => edgesNear(one, at).length);
  if (!area) return { area: null, from_deg: 0, sweep_deg: 360 };
  const allRound = arcKind !== "fixed";
  return { area: area.id, ...(allRound ? { from_deg: 0, sweep_deg: 360 } : arcIn(area, at)) };
}

/** The bearings of the edges that meet or pass the place: where the ends of an arc jump to. */
export function edgeBearings(doc, at) {
  const found = [];
  for (const area of doc.ground?.areas ?? []) {
    for (const { start, end, foot } of edgesNear(area, at)) {
      for (const point of [start, end]) if (Math.hypot(point[0] - foot[0], point[1] - foot[1]) > NEAR_M) found.push(tenth(bearing(foot, point)));
    }
  }
  return [...new Set(found)];
}

/** The bearing dragged to, on the neighbouring edge's bearing where it is close to one, else in whole degrees. */
export function snapBearing(dragged_deg, bearings) {
  const off = (edge) => Math.abs(turned(dragged_deg - edge + 180) - 180);
  const nearest = [...bearings].sort((one, other) => off(one) - off(other))[0];
  if (nearest !== undefined && off(nearest) <= JUMP_DEG) return nearest;
  return turned(Math.round(dragged_deg));
}
