// Where the lists of a document are, and new documents that share all that did not change.

import { EditRefused } from "./refused.js";

/** @typedef {object} Doc a plan document, format plan/1, as plain JSON */

/** List of the document by name: the part that holds it. */
const HOLDER = {
  marks: "ground",
  areas: "ground",
  surfaces: "ground",
  services: "ground",
  levels: "ground",
  nodes: "layout",
  pipes: "layout",
  cables: "layout",
  sleeves: "layout",
  notes: "layout",
  cases: "layout",
};
export const GROUPS = Object.keys(HOLDER).filter((group) => group !== "cases");
const NONE = Object.freeze([]);
// As design/loading.py takes; a test compares them.
const MOST = {
  nodes: 1000, pipes: 1200, cables: 1000, cases: 100, levels: 300, areas: 100, surfaces: 300, services: 100, sleeves: 100,
};
const MOST_OF_OTHERS = 500;

/** @param {Doc} doc @param {string} group @returns {object[]} */
export function listOf(doc, group) {
  return doc[HOLDER[group]]?.[group] ?? NONE;
}

/**
 * The document with another list in one group; itself where nothing in it differs.
 * @param {Doc} doc @param {string} group @param {object[]} list @returns {Doc}
 */
export function withList(doc, group, list) {
  const before = listOf(doc, group);
  if (before.length === list.length && before.every((entity, i) => entity === list[i])) return doc;
  const most = MOST[group] ?? MOST_OF_OTHERS;
  if (list.length > before.length && list.length > most) throw new EditRefused(`A plan holds at most ${most} ${group}.`);
  const holder = HOLDER[group];
  return { ...doc, [holder]: { ...doc[holder], [group]: list } };
}

/** @param {Doc} doc @param {string} group @param {object[]} entities @returns {Doc} */
export function withAdded(doc, group, ...entities) {
  return entities.length ? withList(doc, group, [...listOf(doc, group), ...entities]) : doc;
}

/**
 * @param {Doc} doc @param {string} group @param {object} before @param {object[]} after what stands in its place @returns {Doc}
 */
export function withReplaced(doc, group, before, ...after) {
  return withList(doc, group, listOf(doc, group).flatMap((entity) => (entity === before ? after : [entity])));
}

/**
 * Each entity of a group as a function gives it back; null drops it.
 * @param {Doc} doc @param {string} group @param {(entity: object) => object|null} change @returns {Doc}
 */
export function mapGroup(doc, group, change) {
  return withList(doc, group, listOf(doc, group).map(change).filter(Boolean));
}

/** An entity without the fields that hold nothing. @param {object} entity */
export function tidied(entity) {
  const holds = ([, value]) => value !== undefined && value !== null && !(Array.isArray(value) && !value.length);
  return Object.fromEntries(Object.entries(entity).filter(holds));
}
