// Arcs of heads: from a bearing, clockwise through an angle, as far as a reach.

import { withReplaced } from "./groups.js";
import { mustFind } from "./lookup.js";
import { bearingDeg, distance, onGrid, pointAt, roundMm, samePlace, tidyDeg } from "./points.js";
import { EditRefused } from "./refused.js";

/** @typedef {import("./points.js").XY} XY */

const FARTHEST_M = 60; // the document refuses more

/**
 * Where an arc can be taken hold of: at its two ends and in its middle.
 * @param {object} head @param {number} reach_m @returns {{from: XY, to: XY, reach: XY}}
 */
export function arcHandles(head, reach_m) {
  const [from_deg, sweep_deg] = [head.from_deg ?? 0, head.sweep_deg ?? 360];
  const on = (deg) => onGrid(pointAt(head.at, deg, reach_m));
  return { from: on(from_deg), to: on(from_deg + sweep_deg), reach: on(from_deg + sweep_deg / 2) };
}

/**
 * The head with one handle of its arc moved: an end (the other end stays), “reach” the throw, “turn” the whole arc.
 * @param {object} doc @param {string} id @param {"from"|"to"|"reach"|"turn"} handle @param {XY} to
 * @param {{step_deg?: number}} [options] angles are rounded to this step
 * @returns {{doc: object, ids: [string]}}
 */
export function turnArc(doc, id, handle, to, { step_deg = 0.1 } = {}) {
  const { entity } = mustFind(doc, id, "nodes");
  if (entity.kind !== "head") throw new EditRefused(`${id} is a ${entity.kind}; only a head has an arc.`);
  if (samePlace(entity.at, to)) return { doc, ids: [id] };
  const after = { ...entity, ...arcTo(entity, handle, to, step_deg) };
  const same = after.from_deg === entity.from_deg && after.sweep_deg === entity.sweep_deg && after.reach_m === entity.reach_m;
  return { doc: same ? doc : withReplaced(doc, "nodes", entity, after), ids: [id] };
}

function arcTo(head, handle, to, step_deg) {
  const [from_deg, sweep_deg] = [head.from_deg ?? 0, head.sweep_deg ?? 360];
  const bearing = tidyDeg(Math.round(bearingDeg(head.at, to) / step_deg) * step_deg);
  if (handle === "reach") return { reach_m: Math.min(FARTHEST_M, roundMm(distance(head.at, to))) };
  if (handle === "turn") return { from_deg: tidyDeg(bearing - sweep_deg / 2) };
  if (handle === "to") return { from_deg, sweep_deg: tidyDeg(bearing - from_deg) || 360 };
  return { from_deg: bearing, sweep_deg: tidyDeg(from_deg + sweep_deg - bearing) || 360 };
}

/**
 * The outline of a sector: the head, then its arc clockwise; a full circle is the circle alone.
 * @param {XY} at @param {number} reach_m @param {number} from_deg @param {number} sweep_deg @returns {XY[]}
 */
export function sectorPoints(at, reach_m, from_deg, sweep_deg) {
  const full = sweep_deg >= 360;
  const steps = Math.max(2, Math.ceil(sweep_deg / 5));
  const points = full ? [] : [[at[0], at[1]]];
  for (let i = 0; i <= steps - (full ? 1 : 0); i += 1) points.push(pointAt(at, from_deg + (sweep_deg * i) / steps, reach_m));
  return points;
}
