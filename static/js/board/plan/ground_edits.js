// What is drawn of the ground. Each edit gives {doc, ids}: the new document and the ids made or kept.

import { addEntity } from "./entities.js";
import { tidied, withReplaced } from "./groups.js";
import { mustFind, ringsOf } from "./lookup.js";
import { withoutRepeats } from "./paths.js";
import { placed } from "./points.js";
import { EditRefused } from "./refused.js";
import { insideRing, placeInside, ringArea, ringInside, ringsCross, tidyRing } from "./rings.js";

export { joinOutlines } from "./outline_joining.js";
export { splitOutline } from "./outline_cutting.js";

/** @typedef {import("./points.js").XY} XY */
/** @typedef {{doc: object, ids: string[], notes?: string[]}} Edited */

const LEAST_AREA_M2 = 0.0001;

/** A closed outline as the document keeps it. @param {XY[]} points @returns {XY[]} */
function outlineOf(points) {
  const ring = tidyRing(points.map(placed));
  if (ring.length < 3) throw new EditRefused("An outline needs three different corners.");
  if (ring.length > 2000) throw new EditRefused("An outline has at most 2000 corners.");
  if (ringArea(ring) < LEAST_AREA_M2) throw new EditRefused("This outline encloses nothing; place its corners apart.");
  return ring;
}

/** A line as the document keeps it. @param {XY[]} points @returns {XY[]} */
export function lineOf(points) {
  const path = withoutRepeats(points.map(placed));
  if (path.length < 2) throw new EditRefused("A line needs two different points.");
  if (path.length > 2000) throw new EditRefused("A line has at most 2000 points.");
  return path;
}

function added(doc, group, entity) {
  const { doc: next, id } = addEntity(doc, group, entity);
  return { doc: next, ids: [id] };
}

/**
 * @param {object} doc @param {XY[]} outline @param {object} [props] cover, soil, slope_pct, label @returns {Edited}
 */
export function addArea(doc, outline, props = {}) {
  return added(doc, "areas", { cover: "turf", ...props, outline: outlineOf(outline) });
}

/** @param {object} doc @param {XY[]} outline @param {object} [props] kind, label @returns {Edited} */
export function addSurface(doc, outline, props = {}) {
  return added(doc, "surfaces", { kind: "paving", ...props, outline: outlineOf(outline) });
}

/** @param {object} doc @param {XY[]} path @param {object} [props] kind, depth_m, located, label @returns {Edited} */
export function addService(doc, path, props = {}) {
  return added(doc, "services", { kind: "water", ...props, path: lineOf(path) });
}

/** @param {object} doc @param {XY} at @param {object} [props] label @returns {Edited} */
export function addMark(doc, at, props = {}) {
  return added(doc, "marks", { ...props, at: placed(at) });
}

/** @param {object} doc @param {XY} at @param {{z_m: number}|number} props the height [m] @returns {Edited} */
export function addLevel(doc, at, props) {
  const z_m = typeof props === "number" ? props : props?.z_m;
  if (!Number.isFinite(z_m)) throw new EditRefused("Say how high this level is.");
  return added(doc, "levels", { ...(typeof props === "object" ? props : {}), at: placed(at), z_m });
}

/**
 * @param {object} doc @param {XY|null} at none: a note on the whole plan @param {{text: string}|string} props @returns {Edited}
 */
export function addNote(doc, at, props) {
  const text = (typeof props === "string" ? props : (props?.text ?? "")).trim();
  if (!text) throw new EditRefused("Write something in the note.");
  if (text.length > 1000) throw new EditRefused("A note has at most 1000 characters.");
  return added(doc, "notes", { ...(typeof props === "object" ? props : {}), at: at ? placed(at) : null, text });
}

/**
 * A hole in an area: a bed in a lawn.
 * @param {object} doc @param {string} areaId @param {XY[]} ring @returns {Edited}
 */
export function addHole(doc, areaId, ring) {
  const { entity } = mustFind(doc, areaId, "areas");
  const hole = outlineOf(ring);
  const [outline, ...holes] = ringsOf(doc, areaId);
  if (!ringInside(hole, outline)) {
    throw new EditRefused("A hole lies inside its outline; draw it there.");
  }
  if (holes.some((other) => ringsCross(hole, other) || holdsOther(hole, other) || holdsOther(other, hole))) {
    throw new EditRefused("This hole meets another one; draw it beside it, or move the corners of the other.");
  }
  const after = tidied({ ...entity, holes: [...holes, hole] });
  return { doc: withReplaced(doc, "areas", entity, after), ids: [areaId] };
}

function holdsOther(ring, other) {
  return insideRing(placeInside(other), ring);
}
