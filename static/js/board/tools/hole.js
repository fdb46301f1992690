// A hole in an area: a pond or a bed that is not watered with the lawn round it.

import { insideRing, ringArea, samePlace } from "../plan/geometry.js";
import { addHole } from "../plan/ground_edits.js";
import { lineTool } from "./line_tool.js";
import { tryEdit } from "./try_edit.js";

const touches = (area, corner) => insideRing(corner, area.outline) || area.outline.some((own) => samePlace(own, corner));

/** The area that a hole is meant for: the selected one, else the smallest that holds most of its corners. */
export function areaToHole(doc, ring, selection) {
  const held = (area) => ring.filter((corner) => touches(area, corner)).length;
  const holding = (doc.ground?.areas ?? []).filter((area) => held(area) > 0);
  const chosen = holding.find((area) => selection.includes(area.id));
  const order = (one, other) => held(other) - held(one) || ringArea(one.outline) - ringArea(other.outline);
  return (chosen ?? holding.sort(order)[0])?.id ?? null;
}

export function createTool(context) {
  const { store, say } = context;

  const finish = (points) => {
    const ring = points.map((point) => point.at);
    const area = areaToHole(store.document, ring, store.selection);
    if (!area) return say("A hole is cut out of a lawn or bed; draw it inside one."), false;
    return tryEdit(context, `Cut a hole out of ${area}`, (doc) => addHole(doc, area, ring)) !== null;
  };

  return lineTool(context, {
    name: "hole", label: "Hole", key: "O", group: "Ground", closed: true, least: 3, boxes: true, finish,
    help: "Click the corners of a pond or bed inside a lawn, or type 3 x 2 from the first one. Enter or Done cuts it out.",
  });
}
