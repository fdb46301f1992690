// Making one outline of two that share an edge.

import { listOf, mapGroup, tidied, withReplaced } from "./groups.js";
import { mustFind } from "./lookup.js";
import { pointOnSegment, segmentsMeet } from "./paths.js";
import { distance, placed, samePlace } from "./points.js";
import { EditRefused } from "./refused.js";
import { insideRing, placeInside, ringSides, signedArea, tidyRing } from "./rings.js";

/** @typedef {import("./points.js").XY} XY */

const SHARED_M = 0.01;

/**
 * One area or surface out of several that share edges within 0.01 m; the first keeps its id and what is said of it.
 * @param {object} doc @param {string[]} ids
 * @returns {{doc: object, ids: [string], notes: string[]}} refused where they share no edge or overlap
 */
export function joinOutlines(doc, ids) {
  const found = [...new Set(ids)].map((id) => mustFind(doc, id, "areas", "surfaces"));
  if (found.length < 2) throw new EditRefused("Select two areas, or two surfaces, that share an edge.");
  if (found.some((one) => one.group !== found[0].group)) {
    throw new EditRefused("An area and a surface cannot become one; select two of a kind.");
  }
  const [first, ...others] = found.map((one) => one.entity);
  let shape = { outline: first.outline, holes: first.holes ?? [] };
  let waiting = others;
  while (waiting.length) {
    const next = waiting.find((other) => sharesEdge(shape.outline, other.outline)) ?? waiting[0];
    shape = joined(shape, next);
    waiting = waiting.filter((other) => other !== next);
  }
  const group = found[0].group;
  let after = withReplaced(doc, group, first, tidied({ ...first, ...shape }));
  for (const other of others) after = withReplaced(after, group, other);
  return { doc: headsFollow(after, first.id, others), ids: [first.id], notes: differences(first, others) };
}

function joined(shape, other) {
  const [one, two] = matched(anticlockwise(shape.outline), anticlockwise(other.outline));
  if (overlap(one, two)) throw new EditRefused("These overlap; move their edges onto each other first.");
  const shared = sharedSides(one, two);
  if (!shared.size) throw new EditRefused("These share no edge; move their edges onto each other first.");
  const loops = loopsOf([...sidesWithout(one, shared), ...sidesWithout(two, shared)]);
  const seam = new Set([...shared].flatMap((side) => side.split(">")));
  const rings = loops.map((loop) => withoutSeams(loop, seam)).filter((ring) => ring.length >= 3);
  const outer = rings.reduce((most, ring) => (signedArea(ring) > signedArea(most) ? ring : most));
  const gaps = rings.filter((ring) => ring !== outer);
  return { outline: outer, holes: [...shape.holes, ...(other.holes ?? []), ...gaps] };
}

const anticlockwise = (ring) => (signedArea(ring) < 0 ? [...ring].reverse() : ring);
const key = ([x, y]) => `${x},${y}`;

/** Both rings with each other's corners where they touch, so that what is shared is the same sides. */
function matched(one, two) {
  const near = two.map((corner) => one.find((other) => samePlace(corner, other, SHARED_M)) ?? corner);
  return [withCorners(one, near), withCorners(near, one)];
}

function withCorners(ring, corners) {
  return tidyRing(ringSides(ring).flatMap(([a, b]) => [a, ...between(a, b, corners)]));
}

function between(a, b, corners) {
  const inner = corners.filter((c) => !samePlace(c, a, SHARED_M) && !samePlace(c, b, SHARED_M));
  const on = inner.map((at) => ({ at, ...pointOnSegment(at, a, b), place: at }));
  return on.filter((found) => found.distance_m <= SHARED_M).sort((p, q) => p.along - q.along).map((found) => found.place);
}

function sharedSides(one, two) {
  const back = new Set(ringSides(two).map(([a, b]) => `${key(b)}>${key(a)}`));
  return new Set(ringSides(one).map(([a, b]) => `${key(a)}>${key(b)}`).filter((side) => back.has(side)));
}

function sharesEdge(outline, other) {
  const [one, two] = matched(anticlockwise(outline), anticlockwise(other));
  return sharedSides(one, two).size > 0;
}

function sidesWithout(ring, shared) {
  return ringSides(ring).filter(([a, b]) => !shared.has(`${key(a)}>${key(b)}`) && !shared.has(`${key(b)}>${key(a)}`));
}

function loopsOf(sides) {
  const next = new Map(sides.map(([a, b]) => [key(a), [a, b]]));
  if (next.size < sides.length) throw new EditRefused("These also touch in one corner only; move that corner first.");
  const loops = [];
  while (next.size) {
    const loop = [];
    let at = next.keys().next().value;
    while (next.has(at)) {
      const [a, b] = next.get(at);
      next.delete(at);
      loop.push(a);
      at = key(b);
    }
    loops.push(loop);
  }
  return loops;
}

/** A ring without the corners that only the former edge needed. */
function withoutSeams(loop, seam) {
  const kept = loop.filter((corner, i) => {
    const [before, after] = [loop.at(i - 1), loop[(i + 1) % loop.length]];
    return !seam.has(key(corner)) || pointOnSegment(corner, before, after).distance_m > 0.002;
  });
  return tidyRing(kept.map(placed));
}

function overlap(one, two) {
  const inner = (along, length_m) => along * length_m > SHARED_M && (1 - along) * length_m > SHARED_M;
  const cross = ringSides(one).some(([a, b]) =>
    ringSides(two).some(([c, d]) => {
      const met = segmentsMeet(a, b, c, d);
      return met && inner(met.first, distance(a, b)) && inner(met.second, distance(c, d));
    }),
  );
  return cross || insideRing(placeInside(two), one) || insideRing(placeInside(one), two);
}

function headsFollow(doc, id, others) {
  const gone = new Set(others.map((other) => other.id));
  if (!listOf(doc, "nodes").some((node) => gone.has(node.area))) return doc;
  return mapGroup(doc, "nodes", (node) => (gone.has(node.area) ? { ...node, area: id } : node));
}

function differences(first, others) {
  const told = ["cover", "kind", "soil", "slope_pct"].filter((field) => others.some((other) => other[field] !== first[field]));
  return told.length ? [`What is said of ${first.id} now holds for the whole.`] : [];
}
