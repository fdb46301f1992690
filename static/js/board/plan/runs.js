// Cables and sleeves.

import { addEntity } from "./entities.js";
import { lineOf } from "./ground_edits.js";
import { listOf } from "./groups.js";
import { mustFind } from "./lookup.js";
import { placed } from "./points.js";
import { EditRefused } from "./refused.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {{doc: object, ids: string[]}} Edited */

/**
 * A control cable between two devices; without `via` it follows the trench.
 * @param {object} doc @param {string} fromId @param {string} toId @param {{part: string, via?: XY[]}} options @returns {Edited}
 */
export function drawCable(doc, fromId, toId, { part, via = [] }) {
  if (!part) throw new EditRefused("Choose a cable first.");
  for (const id of [fromId, toId]) {
    const { entity } = mustFind(doc, id, "nodes");
    if (entity.kind === "supply") throw new EditRefused(`${id} is the supply; no cable ends there.`);
  }
  if (fromId === toId) throw new EditRefused(`This cable would begin and end at ${fromId}.`);
  const joins = (cable) => [cable.from, cable.to].sort().join(" ") === [fromId, toId].sort().join(" ");
  const there = listOf(doc, "cables").find((cable) => joins(cable) && cable.part === part);
  if (there) throw new EditRefused(`${there.id} joins ${fromId} and ${toId} already.`);
  const { doc: next, id } = addEntity(doc, "cables", { from: fromId, to: toId, via: via.map(placed), part });
  return { doc: next, ids: [id] };
}

/**
 * A duct under a hard surface.
 * @param {object} doc @param {XY[]} path @param {object} [props] part, existing @returns {Edited}
 */
export function addSleeve(doc, path, props = {}) {
  const { doc: next, id } = addEntity(doc, "sleeves", { ...props, path: lineOf(path) });
  return { doc: next, ids: [id] };
}
