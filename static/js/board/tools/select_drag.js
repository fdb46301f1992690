// What a drag of the selection comes to: a document to look at while dragging, one step when let go.

import { turnArc } from "../plan/arcs.js";
import { insertPoint, moveAll, movePoint } from "../plan/edits.js";
import { bearingDeg, pointAt, distance } from "../plan/geometry.js";
import { find, ringsOf, pathOf } from "../plan/lookup.js";
import { edgeBearings, snapBearing } from "./arc_guess.js";
import { snapHere } from "./snap_here.js";

// The corners beside one, for right angles.
function besides(doc, grip) {
  if (grip.place === "at") return {};
  const ring = ringsOf(doc, grip.id)[grip.place === "hole" ? grip.ring + 1 : 0];
  const line = ring ?? pathOf(doc, grip.id) ?? [];
  const index = grip.place === "via" ? grip.index + 1 : grip.index;
  const at = (offset) => (ring ? line[(index + offset + line.length) % line.length] : line[index + offset]) ?? null;
  return { from: at(-1), previous: at(-2) };
}

/** {name, edit(doc) -> doc, guide} for a grip dragged to where the event points. */
export function gripDragged(context, grip, event) {
  const { document: doc } = context.store;
  if (grip.place === "arc") return arcDragged(doc, grip, event);
  const found = snapHere(context, event, { ...besides(doc, grip), avoid: [grip.id] });
  if (!grip.insert) return { name: "Move a point", guide: found, edit: (before) => docOf(movePoint(before, grip, found.at)) };
  const { id, place, ring, index } = grip;
  return { name: "Add a corner", guide: found, edit: (before) => docOf(insertPoint(before, id, place, ring, place === "via" ? index : index + 1, found.at)) };
}

export const docOf = (answer) => answer.doc ?? answer;

function arcDragged(doc, grip, event) {
  const head = find(doc, grip.id).entity;
  const turned_deg = event.shift ? bearingDeg(head.at, event.at) : snapBearing(bearingDeg(head.at, event.at), edgeBearings(doc, head.at));
  const to = grip.which === "reach" ? event.at : pointAt(head.at, turned_deg, Math.max(0.1, distance(head.at, event.at)));
  return { name: "Set the arc", guide: { guide: [head.at, to] }, edit: (before) => docOf(turnArc(before, grip.id, grip.which, to)) };
}

/** {name, edit, guide} for the selection dragged from `anchor`, snapping where the anchor comes to lie. */
export function selectionDragged(context, anchor, start, event) {
  const { selection } = context.store;
  const wanted = [anchor[0] + event.at[0] - start[0], anchor[1] + event.at[1] - start[1]];
  const found = snapHere(context, { ...event, at: wanted }, { avoid: selection });
  const [dx, dy] = [found.at[0] - anchor[0], found.at[1] - anchor[1]];
  return { name: "Move", guide: found, edit: (doc) => docOf(moveAll(doc, selection, dx, dy)) };
}
