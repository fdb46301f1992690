// What things on the plan are called when the board speaks of them.

import { pathLength, ringArea } from "../plan/geometry.js";
import { find, pathOf } from "../plan/lookup.js";

const NODES = { head: "Head", valve: "Valve", controller: "Controller", junction: "Junction", supply: "Supply" };
const GROUPS = { marks: "Mark", areas: "Area", surfaces: "Surface", services: "Buried line", levels: "Level", pipes: "Pipe", cables: "Cable", sleeves: "Sleeve", notes: "Note", supply: "Supply" };

const partLabel = (entity, parts) => Object.values(parts ?? {}).flat().find((part) => part.code === entity.part)?.label ?? entity.part;

/** "Head H3", "Valve V1". */
export const nameOf = (node) => `${NODES[node.kind] ?? "Point"} ${node.id}`;

/** "Area", "Head": the kind of what an id stands for. */
export function kindOf(doc, id) {
  const found = find(doc, id);
  if (!found) return "";
  return NODES[found.entity.kind] && found.group === "nodes" ? NODES[found.entity.kind] : GROUPS[found.group];
}

function measureOf(doc, { group, entity }) {
  if (entity.outline) return `${ringArea(entity.outline).toFixed(1)} m²`;
  const path = ["pipes", "cables", "services", "sleeves"].includes(group) ? pathOf(doc, entity.id) : null;
  if (path) return `${pathLength(path).toFixed(2)} m`;
  return entity.at ? entity.at.map((part) => part.toFixed(2)).join("; ") : "";
}

/** One line that says what an entity is, for the announcement when it is selected. */
export function describe(doc, id, data) {
  const found = find(doc, id);
  if (!found) return "";
  const { entity } = found;
  const words = [`${kindOf(doc, id)} ${id}`, entity.label, entity.part && partLabel(entity, data.parts), measureOf(doc, found)];
  return `${words.filter(Boolean).join(", ")}.`;
}
