// What things on the plan are called when the board speaks of them.

import { lengthWords, metresPerUnit, unitWord } from "../map/site_units.js";
import { pathLength, ringArea } from "../plan/geometry.js";
import { find, pathOf, ringsOf } from "../plan/lookup.js";

const NODES = { head: "Head", valve: "Valve", controller: "Controller", junction: "Junction", supply: "Supply" };
const GROUPS = { marks: "Mark", areas: "Area", surfaces: "Surface", services: "Buried line", levels: "Level", pipes: "Pipe", cables: "Cable", sleeves: "Sleeve", notes: "Note", supply: "Supply" };

const partLabel = (entity, parts) => Object.values(parts ?? {}).flat().find((part) => part.code === entity.part)?.label ?? entity.part;

/** "3.00; 4.00": east and north in the site's units. */
export const placeWords = (at, units) => at.map((part) => (part / metresPerUnit(units)).toFixed(2)).join("; ");

/** "Head H3", "Valve V1". */
export const nameOf = (node) => `${NODES[node.kind] ?? "Point"} ${node.id}`;

/** "Area", "Head": the kind of what an id stands for. */
export function kindOf(doc, id) {
  const found = find(doc, id);
  if (!found) return "";
  return NODES[found.entity.kind] && found.group === "nodes" ? NODES[found.entity.kind] : GROUPS[found.group];
}

function measureOf(doc, { group, entity }, units) {
  const unit_m = metresPerUnit(units);
  if (entity.outline) {
    const [outline_m2, ...holes_m2] = ringsOf(doc, entity.id).map(ringArea);
    const left_m2 = holes_m2.reduce((left, hole) => left - hole, outline_m2);
    return `${(left_m2 / unit_m ** 2).toFixed(1)} ${unitWord(units)}²`;
  }
  const path = ["pipes", "cables", "services", "sleeves"].includes(group) ? pathOf(doc, entity.id) : null;
  if (path) return lengthWords(pathLength(path), units, 2);
  return entity.at ? placeWords(entity.at, units) : "";
}

/** One line that says what an entity is, for the announcement when it is selected. */
export function describe(doc, id, data) {
  const found = find(doc, id);
  if (!found) return "";
  const { entity } = found;
  const words = [`${kindOf(doc, id)} ${id}`, entity.label, entity.part && partLabel(entity, data.parts), measureOf(doc, found, data.site.units)];
  return `${words.filter(Boolean).join(", ")}.`;
}
