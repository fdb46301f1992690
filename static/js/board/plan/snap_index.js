// Where points and segments lie, in a grid of cells. From one document to the next only what changed is put in anew.

import { GROUPS, listOf } from "./groups.js";
import { nodeOf, pathOfEntity } from "./lookup.js";
import { ringSides } from "./rings.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {{entry: Entry, at: XY, what: "node"|"end"|"level"}} PointFeature */
/** @typedef {{entry: Entry, a: XY, b: XY, what: "edge"|"pipe"}} SegmentFeature */
/**
 * @typedef {{id: string|null, from: object|null, to: object|null, points: PointFeature[], segments: SegmentFeature[]}} Entry
 */

const CELL_M = 4;
const BAND_M = 0.5; // width of the bands in which corners of the same x, or y, are looked up
const ROW = 1 << 20;
const POINT_WHAT = { nodes: "node", levels: "level" };

const cellOf = (value) => Math.floor(value / CELL_M);
const bandOf = (value) => Math.floor(value / BAND_M);

let latest = null;

/** The index of a document; that of the last one is brought up to date. @param {object} doc */
export function indexFor(doc) {
  if (latest?.doc !== doc) latest = brought(latest ?? emptyIndex(), doc);
  return latest;
}

function emptyIndex() {
  const none = { list: null, nodes: null, entries: new Map() };
  const groups = Object.fromEntries(GROUPS.map((group) => [group, none]));
  return { doc: null, groups, cells: new Map(), columns: new Map(), rows: new Map() };
}

function brought(index, doc) {
  const nodes = listOf(doc, "nodes");
  for (const group of GROUPS) {
    const list = listOf(doc, group);
    const before = index.groups[group];
    const hangsOnNodes = group === "pipes" || group === "cables";
    if (before.list === list && (!hangsOnNodes || before.nodes === nodes)) continue;
    index.groups[group] = { list, nodes, entries: groupBrought(index, doc, group, before.entries) };
  }
  index.doc = doc;
  return index;
}

function groupBrought(index, doc, group, entries) {
  const seen = new Map();
  for (const entity of listOf(doc, group)) {
    const [from, to] = entity.from === undefined ? [null, null] : [nodeOf(doc, entity.from), nodeOf(doc, entity.to)];
    const entry = entries.get(entity);
    const same = entry && entry.from === from && entry.to === to;
    if (entry && !same) take(index, entry);
    seen.set(entity, same ? entry : put(index, makeEntry(doc, group, entity, from, to)));
  }
  for (const [entity, entry] of entries) if (!seen.has(entity)) take(index, entry);
  return seen;
}

function makeEntry(doc, group, entity, from, to) {
  const entry = { id: entity.id ?? null, from, to, points: [], segments: [] };
  const point = (at, what) => entry.points.push({ entry, at, what });
  const sides = (pairs, what) => pairs.forEach(([a, b]) => entry.segments.push({ entry, a, b, what }));
  if (entity.at) point(entity.at, POINT_WHAT[group] ?? "end");
  for (const ring of entity.outline ? [entity.outline, ...(entity.holes ?? [])] : []) {
    ring.forEach((corner) => point(corner, "end"));
    sides(ringSides(ring), "edge");
  }
  const hidden = group === "cables" && !entity.via?.length; // it follows the trench, which is not drawn as its own
  const path = hidden || entity.outline ? null : pathOfEntity(doc, entity);
  if (path) {
    (entity.path ?? entity.via ?? []).forEach((bend) => point(bend, "end"));
    sides(path.slice(1).map((end, i) => [path[i], end]), group === "pipes" ? "pipe" : "edge");
  }
  return entry;
}

function put(index, entry) {
  for (const feature of entry.points) {
    addTo(index.cells, cellKey(cellOf(feature.at[0]), cellOf(feature.at[1])), feature);
    addTo(index.columns, bandOf(feature.at[0]), feature);
    addTo(index.rows, bandOf(feature.at[1]), feature);
  }
  for (const feature of entry.segments) for (const key of cellsAlong(feature.a, feature.b)) addTo(index.cells, key, feature);
  return entry;
}

function take(index, entry) {
  for (const feature of entry.points) {
    dropFrom(index.cells, cellKey(cellOf(feature.at[0]), cellOf(feature.at[1])), feature);
    dropFrom(index.columns, bandOf(feature.at[0]), feature);
    dropFrom(index.rows, bandOf(feature.at[1]), feature);
  }
  for (const feature of entry.segments) for (const key of cellsAlong(feature.a, feature.b)) dropFrom(index.cells, key, feature);
}

function cellKey(column, row) {
  return column * ROW + row;
}

/** The cells that a segment passes, column by column. */
function cellsAlong(a, b) {
  const [left, right] = a[0] <= b[0] ? [a, b] : [b, a];
  const slope = right[0] > left[0] ? (right[1] - left[1]) / (right[0] - left[0]) : 0;
  const heightAt = (x) => left[1] + slope * (x - left[0]);
  const keys = [];
  for (let column = cellOf(left[0]); column <= cellOf(right[0]); column += 1) {
    const x1 = Math.max(left[0], column * CELL_M);
    const x2 = Math.min(right[0], (column + 1) * CELL_M);
    const ends = slope || left[0] < right[0] ? [heightAt(x1), heightAt(x2)] : [left[1], right[1]];
    const low = cellOf(Math.min(...ends) - 1e-6);
    const high = cellOf(Math.max(...ends) + 1e-6);
    for (let row = low; row <= high; row += 1) keys.push(cellKey(column, row));
  }
  return keys;
}

function addTo(map, key, feature) {
  const list = map.get(key);
  if (list) list.push(feature);
  else map.set(key, [feature]);
}

function dropFrom(map, key, feature) {
  const list = map.get(key);
  const at = list?.indexOf(feature) ?? -1;
  if (at < 0) return;
  const last = list.pop();
  if (at < list.length) list[at] = last;
  if (!list.length) map.delete(key);
}

/**
 * Points and segments whose cells come near a place.
 * @param {object} index @param {XY} at @param {number} radius_m @returns {Set<PointFeature|SegmentFeature>}
 */
export function featuresNear(index, at, radius_m) {
  const found = new Set();
  for (let column = cellOf(at[0] - radius_m); column <= cellOf(at[0] + radius_m); column += 1) {
    for (let row = cellOf(at[1] - radius_m); row <= cellOf(at[1] + radius_m); row += 1) {
      for (const feature of index.cells.get(cellKey(column, row)) ?? []) found.add(feature);
    }
  }
  return found;
}

/**
 * Points whose x (`axis` 0) or y (1) is near that of a place.
 * @param {object} index @param {XY} at @param {0|1} axis @param {number} within_m @returns {PointFeature[]}
 */
export function pointsInLine(index, at, axis, within_m) {
  const bands = axis === 0 ? index.columns : index.rows;
  const found = [];
  for (let band = bandOf(at[axis] - within_m); band <= bandOf(at[axis] + within_m); band += 1) {
    for (const feature of bands.get(band) ?? []) if (Math.abs(feature.at[axis] - at[axis]) <= within_m) found.push(feature);
  }
  return found;
}
