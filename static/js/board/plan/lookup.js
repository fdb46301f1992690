// What is where in a document. One index per document is kept for as long as the document is.

import { GROUPS, listOf } from "./groups.js";
import { EditRefused } from "./refused.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {import("./groups.js").Doc} Doc */
/** @typedef {{group: string, entity: object}} Found */
/** @typedef {{id: string, place: "at"|"outline"|"hole"|"path"|"via", ring: number, index: number, at: XY}} Handle */

const indexes = new WeakMap();

function indexOf(doc) {
  let index = indexes.get(doc);
  if (!index) {
    index = buildIndex(doc);
    indexes.set(doc, index);
  }
  return index;
}

function buildIndex(doc) {
  const [found, pipesAt] = [new Map(), new Map()];
  for (const group of GROUPS) {
    for (const entity of listOf(doc, group)) {
      if (entity.id && !found.has(entity.id)) found.set(entity.id, { group, entity });
    }
  }
  for (const pipe of listOf(doc, "pipes")) {
    for (const end of new Set([pipe.from, pipe.to])) {
      if (pipesAt.has(end)) pipesAt.get(end).push(pipe);
      else pipesAt.set(end, [pipe]);
    }
  }
  const supply = listOf(doc, "nodes").find((node) => node.kind === "supply") ?? null;
  return { found, pipesAt, supply };
}

/**
 * The entity of an id; “supply” is the supply with its readings, if nothing else has that id.
 * @param {Doc} doc @param {string} id @returns {Found|null}
 */
export function find(doc, id) {
  const found = indexOf(doc).found.get(id);
  if (found) return found;
  return id === "supply" && doc.supply ? { group: "supply", entity: doc.supply } : null;
}

/**
 * The same, refused where there is none.
 * @param {Doc} doc @param {string} id @param {...string} groups @returns {Found}
 */
export function mustFind(doc, id, ...groups) {
  const found = find(doc, id);
  if (!found) throw new EditRefused(`There is no “${id}” on this plan.`);
  if (groups.length && !groups.includes(found.group)) {
    throw new EditRefused(`“${id}” is one of the ${found.group}; this is for ${groups.join(" or ")}.`);
  }
  return found;
}

/** @param {Doc} doc @returns {Set<string>} */
export function everyId(doc) {
  return new Set(indexOf(doc).found.keys());
}

/**
 * The next id with a prefix: one more than the highest in use.
 * @param {Doc} doc @param {string} prefix @returns {string}
 */
export function freshId(doc, prefix) {
  let highest = 0;
  for (const id of indexOf(doc).found.keys()) {
    if (!id.startsWith(prefix)) continue;
    const rest = id.slice(prefix.length);
    if (/^\d{1,6}$/.test(rest)) highest = Math.max(highest, Number(rest));
  }
  return `${prefix}${highest + 1}`;
}

/** @param {Doc} doc @param {string} id @returns {object|null} */
export function nodeOf(doc, id) {
  const found = indexOf(doc).found.get(id);
  return found?.group === "nodes" ? found.entity : null;
}

/** The node where the pipes begin, if it is drawn. @param {Doc} doc @returns {object|null} */
export function supplyNode(doc) {
  return indexOf(doc).supply;
}

/** The pipes that end at a node. @param {Doc} doc @param {string} nodeId @returns {object[]} */
export function pipesAt(doc, nodeId) {
  return indexOf(doc).pipesAt.get(nodeId) ?? [];
}

/**
 * A line with its ends: of a pipe, cable, service or sleeve; null where an end is missing.
 * @param {Doc} doc @param {string} id @returns {XY[]|null}
 */
export function pathOf(doc, id) {
  const found = find(doc, id);
  return found ? pathOfEntity(doc, found.entity) : null;
}

/** @param {Doc} doc @param {object} entity @returns {XY[]|null} */
export function pathOfEntity(doc, entity) {
  if (entity.path) return entity.path;
  if (entity.from === undefined) return null;
  const [from, to] = [nodeOf(doc, entity.from), nodeOf(doc, entity.to)];
  return from && to ? [from.at, ...(entity.via ?? []), to.at] : null;
}

/** Outline and holes; none for what has no outline. @param {Doc} doc @param {string} id @returns {XY[][]} */
export function ringsOf(doc, id) {
  const entity = find(doc, id)?.entity;
  return entity?.outline ? [entity.outline, ...(entity.holes ?? [])] : [];
}

/** The points of an entity that can be taken hold of. @param {Doc} doc @param {string} id @returns {Handle[]} */
export function handlesOf(doc, id) {
  const entity = find(doc, id)?.entity;
  if (!entity) return [];
  const points = (place, list, ring = 0) => list.map((at, index) => ({ id, place, ring, index, at }));
  if (entity.at) return points("at", [entity.at]);
  if (entity.outline) {
    const holes = (entity.holes ?? []).flatMap((hole, ring) => points("hole", hole, ring));
    return [...points("outline", entity.outline), ...holes];
  }
  return entity.path ? points("path", entity.path) : points("via", entity.via ?? []);
}

/**
 * West, south, east and north end of some entities, or of all; null for nothing.
 * @param {Doc} doc @param {Iterable<string>|null} [ids] @returns {[number, number, number, number]|null}
 */
export function extentOf(doc, ids = null) {
  const entities = ids ? [...ids].map((id) => find(doc, id)?.entity).filter(Boolean) : everything(doc);
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const entity of entities) {
    for (const [x, y] of pointsOf(doc, entity)) {
      [west, south, east, north] = [Math.min(west, x), Math.min(south, y), Math.max(east, x), Math.max(north, y)];
    }
  }
  return west <= east ? [west, south, east, north] : null;
}

function everything(doc) {
  return [...GROUPS.flatMap((group) => listOf(doc, group)), ...(doc.supply ? [doc.supply] : [])];
}

function pointsOf(doc, entity) {
  if (entity.at) return [entity.at];
  return entity.outline ?? pathOfEntity(doc, entity) ?? [];
}
