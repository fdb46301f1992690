// What each group of the document looks like on the map, and which family draws it.
import { listOf } from "../plan/groups.js";
import { LineString, Point, Polygon } from "./ol.js";

function pointOf(entity) {
  return entity.at ? new Point(entity.at) : null;
}

function pathOf(entity) {
  return entity.path?.length > 1 ? new LineString(entity.path) : null;
}

function closed(ring) {
  return [...ring, ring[0]];
}

function polygonOf(entity) {
  if (!(entity.outline?.length > 1)) return null;
  return new Polygon([entity.outline, ...(entity.holes ?? [])].map(closed));
}

// The supply has a sign of its own as long as the layout has no node for it.
function supplyOf(document) {
  const hasNode = listOf(document, "nodes").some((node) => node.kind === "supply");
  return hasNode || !document.supply ? [] : [document.supply];
}

// Nodes stand before pipes and cables, whose ends they are.
export const GROUPS = [
  { group: "areas", family: "ground", geometry: polygonOf },
  { group: "surfaces", family: "ground", geometry: polygonOf },
  { group: "services", family: "services", geometry: pathOf },
  { group: "marks", family: "marks", geometry: pointOf },
  { group: "levels", family: "levels", geometry: pointOf },
  { group: "notes", family: "notes", geometry: pointOf },
  { group: "sleeves", family: "sleeves", geometry: pathOf },
  { group: "supply", family: "nodes", geometry: pointOf, list: supplyOf },
  { group: "nodes", family: "nodes", geometry: pointOf },
  { group: "pipes", family: "pipes", linked: true },
  { group: "cables", family: "cables", linked: true },
].map((kind) => ({ list: (document) => listOf(document, kind.group), ...kind }));

export function idOf(entity, group, index) {
  return entity.id ?? (group === "supply" ? "supply" : `${group}-${index}`);
}

// A pipe or cable from node to node by way of its bends; null while an end is missing.
function linkedPath(entity, nodes) {
  const from = nodes.get(entity.from);
  const to = nodes.get(entity.to);
  return from && to ? [from.at, ...(entity.via ?? []), to.at] : null;
}

// A cable without bends of its own follows the trench that the check measured for it, as long as
// that still runs from end to end.
export function linkedGeometry(entity, nodes, measured) {
  const own = linkedPath(entity, nodes);
  if (!own) return null;
  const follows = measured?.length > 1 && !entity.via?.length && sameEnds(own, measured);
  return new LineString(follows ? measured : own);
}

function sameEnds(path, other) {
  const near = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]) < 0.05;
  const [a, b, c, d] = [path[0], path.at(-1), other[0], other.at(-1)];
  return (near(a, c) && near(b, d)) || (near(a, d) && near(b, c));
}
