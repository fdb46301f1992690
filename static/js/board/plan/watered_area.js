// Which area a head is taken to water: where it stands, or at whose edge.

import { listOf } from "./groups.js";
import { distanceToRing, insideRing } from "./rings.js";

const AT_THE_EDGE_M = 0.5;

/**
 * The id of the area that holds a place, else of the nearest whose edge is near; undefined for none.
 * @param {object} doc @param {[number, number]} at @param {string[]|null} [among] @returns {string|undefined}
 */
export function areaFor(doc, at, among = null) {
  const areas = listOf(doc, "areas").filter((area) => !among || among.includes(area.id));
  const far = areas.map((area) => ({ id: area.id, off_m: offArea(area, at) }));
  far.sort((one, other) => one.off_m - other.off_m);
  return far.length && far[0].off_m <= AT_THE_EDGE_M ? far[0].id : undefined;
}

/** How far a place is outside an area [m]; the middle of the area counts before its edge. */
function offArea(area, at) {
  return insideRing(at, area.outline) ? -distanceToRing(at, area.outline) : distanceToRing(at, area.outline);
}
