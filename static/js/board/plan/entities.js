// New entities with ids of their own.

import { tidied, withAdded } from "./groups.js";
import { find, freshId } from "./lookup.js";
import { EditRefused } from "./refused.js";

/** What ids begin with, by group or by kind of node. */
export const PREFIX = {
  marks: "M", areas: "A", surfaces: "G", services: "U", levels: "L", notes: "N",
  pipes: "P", cables: "K", sleeves: "D",
  supply: "S", valve: "V", head: "H", junction: "J", controller: "C",
};

const ID = /^[A-Za-z0-9][A-Za-z0-9_.-]{0,39}$/;

/** Refuses what cannot be a new id. @param {object} doc @param {string} id */
export function checkNewId(doc, id) {
  if (!ID.test(id)) {
    const rule = "An id has 1 to 40 letters, digits, points, hyphens or underscores";
    throw new EditRefused(`${rule}, and begins with a letter or digit.`);
  }
  if (find(doc, id)) throw new EditRefused(`There is a “${id}” already; choose another id.`);
}

/**
 * The document with one more entity; its own id if it brings one, else a fresh one.
 * @param {object} doc @param {string} group @param {object} entity
 * @returns {{doc: object, id: string}}
 */
export function addEntity(doc, group, entity) {
  const id = entity.id ?? freshId(doc, PREFIX[entity.kind && group === "nodes" ? entity.kind : group]);
  if (entity.id !== undefined) checkNewId(doc, id);
  return { doc: withAdded(doc, group, tidied({ ...entity, id })), id };
}
