// What is said of an entity, and its id.

import { checkNewId } from "./entities.js";
import { allowedFields, NODE_FIELDS } from "./fields.js";
import { mapGroup, withReplaced } from "./groups.js";
import { mustFind, pipesAt } from "./lookup.js";
import { setSupply } from "./nodes.js";
import { placed, samePlace, tidyDeg } from "./points.js";
import { EditRefused } from "./refused.js";

/** @typedef {{doc: object, ids: string[], notes?: string[]}} Edited */

/**
 * Sets fields; null takes one away. The kind of a node may change (a junction becomes a head); fields that the new
 * kind does not have go. Ids of “supply” set the supply's own figures.
 * @param {object} doc @param {string} id @param {object} props @returns {Edited}
 */
export function setProps(doc, id, props) {
  const { group, entity } = mustFind(doc, id);
  if ("id" in props && props.id !== id) throw new EditRefused("Rename it instead of setting its id.");
  const wanted = tidiedProps(props);
  if (Object.entries(wanted).every(([field, value]) => sameValue(entity[field], value))) return { doc, ids: [id] };
  if (wanted.at && (group === "supply" || entity.kind === "supply")) {
    const { at, ...others } = wanted;
    return setProps(setSupply(doc, at).doc, id, others);
  }
  const after = withFields(entity, wanted);
  checkFields(group, entity, after);
  if (group === "supply") return { doc: { ...doc, supply: after }, ids: [id] };
  if (group === "nodes" && wanted.kind && wanted.kind !== entity.kind) return changeKind(doc, entity, after);
  return { doc: withReplaced(doc, group, entity, after), ids: [id] };
}

// A node that becomes another kind loses fields; otherwise a field that the document would refuse is refused here.
function checkFields(group, before, after) {
  const kinds = group === "nodes" && before.kind !== after.kind ? [before.kind, after.kind] : [after.kind];
  const allowed = kinds.flatMap((kind) => allowedFields(group, kind));
  const unknown = Object.keys(after).find((field) => !(field in before) && !allowed.includes(field));
  if (unknown) throw new EditRefused(`“${unknown}” is nothing that can be said of ${before.id ?? "the supply"}.`);
}

function tidiedProps(props) {
  const wanted = { ...props };
  if (Array.isArray(wanted.at)) wanted.at = placed(wanted.at);
  if (typeof wanted.from_deg === "number") wanted.from_deg = tidyDeg(wanted.from_deg);
  return wanted;
}

function sameValue(before, value) {
  if (Array.isArray(before) && Array.isArray(value) && typeof value[0] === "number") {
    return before.length === value.length && samePlace(before, value, 0);
  }
  return before === value || ((before ?? null) === null && (value ?? null) === null);
}

function withFields(entity, wanted) {
  const after = { ...entity };
  for (const [field, value] of Object.entries(wanted)) {
    if (value === null || value === undefined) delete after[field];
    else after[field] = value;
  }
  return after;
}

function changeKind(doc, before, after) {
  const fields = NODE_FIELDS[after.kind];
  if (!fields || before.kind === "supply" || after.kind === "supply") {
    throw new EditRefused("The supply stays the supply; draw another node beside it.");
  }
  if (after.kind === "controller" && pipesAt(doc, before.id).length) {
    throw new EditRefused("No pipe ends at a controller; remove its pipes first.");
  }
  if (fields.includes("part") && !after.part) throw new EditRefused(`Choose the part of this ${after.kind}.`);
  const allowed = allowedFields("nodes", after.kind);
  const node = Object.fromEntries(Object.entries(after).filter(([field]) => allowed.includes(field)));
  const next = withReplaced(doc, "nodes", before, node);
  const opens = after.kind === "valve" || after.kind === "head";
  return { doc: opens ? next : forgottenByCases(next, before.id), ids: [before.id] };
}

function forgottenByCases(doc, id) {
  return mapGroup(doc, "cases", (one) => {
    if (!one.open.includes(id)) return one;
    const open = one.open.filter((zone) => zone !== id);
    return open.length ? { ...one, open } : null;
  });
}

/**
 * Gives an entity another id, everywhere it is named.
 * @param {object} doc @param {string} id @param {string} newId @returns {Edited}
 */
export function renameId(doc, id, newId) {
  const { group, entity } = mustFind(doc, id);
  const name = String(newId).trim();
  if (name === id) return { doc, ids: [id] };
  if (group === "supply") throw new EditRefused("The supply's readings have no id of their own; rename its node.");
  checkNewId(doc, name);
  let next = withReplaced(doc, group, entity, { ...entity, id: name });
  if (group === "areas") next = mapGroup(next, "nodes", (node) => (node.area === id ? { ...node, area: name } : node));
  if (group === "nodes") next = nodeRenamed(next, id, name);
  return { doc: next, ids: [name] };
}

function nodeRenamed(doc, id, name) {
  const ends = (entity) => {
    if (entity.from !== id && entity.to !== id) return entity;
    return { ...entity, from: entity.from === id ? name : entity.from, to: entity.to === id ? name : entity.to };
  };
  const next = mapGroup(mapGroup(doc, "pipes", ends), "cables", ends);
  return mapGroup(next, "cases", (one) =>
    one.open.includes(id) ? { ...one, open: one.open.map((zone) => (zone === id ? name : zone)) } : one,
  );
}
