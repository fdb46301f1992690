// The arc that a head wants where it stands: a corner's angle, half a circle on an edge, all round inside.

import { bearingDeg, distance, insideRing, pointAt, pointOnSegment, ringSides } from "../plan/geometry.js";

const NEAR_M = 0.3; // a head this close to an edge stands on it
const LOOK_M = 0.02;
const JUMP_DEG = 6;

const ringsOf = (area) => [area.outline, ...(area.holes ?? [])];
const turned = (deg) => ((deg % 360) + 360) % 360;
const tenth = (deg) => (Math.round(turned(deg) * 10) / 10) % 360;

// Inside the outline and in no hole: a point is in an odd number of rings.
const within = (area, at) => ringsOf(area).filter((ring) => insideRing(at, ring)).length % 2 === 1;

function edgesNear(area, at) {
  const near = [];
  for (const ring of ringsOf(area)) {
    ringSides(ring).forEach(([start, end]) => {
      const { at: foot, distance_m } = pointOnSegment(at, start, end);
      if (distance_m <= NEAR_M) near.push({ start, end, foot, distance_m });
    });
  }
  return near.sort((one, other) => one.distance_m - other.distance_m);
}

function cornerNear(area, at) {
  let best = null;
  for (const ring of ringsOf(area)) {
    ring.forEach((corner, index) => {
      const off_m = distance(corner, at);
      if (off_m <= NEAR_M && (!best || off_m < best.off_m)) best = { ring, index, corner, off_m };
    });
  }
  return best;
}

// Of the two arcs between the bearings, the one that looks into the area.
function arcBetween(area, foot, one, other) {
  const pick = (from, to) => ({ from_deg: tenth(from), sweep_deg: Math.round(turned(to - from) * 10) / 10 || 360 });
  const middle = one + turned(other - one) / 2;
  return within(area, pointAt(foot, middle, LOOK_M)) ? pick(one, other) : pick(other, one);
}

function arcIn(area, at) {
  const corner = cornerNear(area, at);
  if (corner) {
    const { ring, index } = corner;
    const before = ring[(index + ring.length - 1) % ring.length];
    const after = ring[(index + 1) % ring.length];
    return arcBetween(area, corner.corner, bearingDeg(corner.corner, before), bearingDeg(corner.corner, after));
  }
  const [edge] = edgesNear(area, at);
  if (edge) return arcBetween(area, edge.foot, bearingDeg(edge.foot, edge.end), bearingDeg(edge.foot, edge.start));
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
      const far = [start, end].filter((point) => distance(point, foot) > NEAR_M);
      found.push(...far.map((point) => tenth(bearingDeg(foot, point))));
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
