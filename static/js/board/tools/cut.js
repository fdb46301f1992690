// Cuts: a line across an area or surface parts it in two, a point on a pipe puts a joint there.

import { splitOutline } from "../plan/ground_edits.js";
import { nearestOnPath, segmentsMeet, ringSides } from "../plan/geometry.js";
import { find, pathOf, ringsOf } from "../plan/lookup.js";
import { splitPipe } from "../plan/network_edits.js";
import { lineTool } from "./line_tool.js";
import { tryEdit } from "./try_edit.js";

const ON_PIPE_M = 0.05;

const crossed = (doc, id, line) => ringsOf(doc, id).some((ring) => ringSides(ring).some(([start, end]) => line.slice(1).some((point, index) => segmentsMeet(line[index], point, start, end))));

/** The outline that a line is meant to cut: the selected one, else the only one or first one that it crosses. */
export function outlineToCut(doc, line, selection) {
  const outlines = [...(doc.ground?.areas ?? []), ...(doc.ground?.surfaces ?? [])].map((entity) => entity.id);
  const hit = outlines.filter((id) => crossed(doc, id, line));
  return hit.find((id) => selection.includes(id)) ?? hit[0] ?? null;
}

/** The pipe under a point, or null. */
export function pipeAt(doc, at) {
  const under = (pipe) => {
    const path = pathOf(doc, pipe.id);
    return path && nearestOnPath(at, path).distance_m <= ON_PIPE_M;
  };
  return (doc.layout?.pipes ?? []).find(under)?.id ?? null;
}

export function createTool(context) {
  const { store, say } = context;

  // The one point on a pipe is enough: there is nothing to draw a line to.
  const endsAt = (point, points) => points.length === 1 && pipeAt(store.document, point.at) !== null && !find(store.document, point.node ?? "");

  const finish = (points) => {
    const line = points.map((point) => point.at);
    if (line.length === 1) {
      const pipe = pipeAt(store.document, line[0]);
      if (!pipe) return say("Click a pipe, or draw a line across an outline."), false;
      return tryEdit(context, "Cut a pipe", (doc) => splitPipe(doc, pipe, line[0])) !== null;
    }
    const outline = outlineToCut(store.document, line, store.selection);
    if (!outline) return say("The line crosses no area or surface. Draw it right across one."), false;
    return tryEdit(context, "Cut an outline", (doc) => splitOutline(doc, outline, line)) !== null;
  };

  return lineTool(context, {
    name: "cut", label: "Cut", key: "X", group: "Ways", least: 1, endsAt, finish,
    help: "Draw a line right across a lawn or surface and press Enter, or click a pipe once.",
  });
}
