// Pipes: a line over heads joins them one by one.

import { nodeOf } from "../plan/lookup.js";
import { drawPipe, pipeNear as pipePassing } from "../plan/network_edits.js";
import { lineTool } from "./line_tool.js";
import { partOption } from "./part_option.js";
import { tryEdit } from "./try_edit.js";

// An end that passes a head by still joins the pipe that runs on there, such as one that passes the head itself.
function endsOnPipes(doc, points) {
  const joined = (point) => {
    const pipe = point.node === null ? pipePassing(doc, point.at) : null;
    return pipe ? { at: point.at, pipe: pipe.id } : point;
  };
  return points.map((point, index) => (index === 0 || index === points.length - 1 ? joined(point) : point));
}

export function createTool(context) {
  const part = partOption(context, "pipe", "Size");
  const finish = (points) => {
    if (part.missing()) return context.say(part.missing()), false;
    const drawn = endsOnPipes(context.store.document, points);
    return tryEdit(context, "Draw a pipe", (doc) => drawPipe(doc, drawn, part.props()), { group: "pipes" }) !== null;
  };
  return lineTool(context, {
    name: "pipe", label: "Pipe", key: "P", group: "Water", least: 2, wants: "pipe",
    help: "Click from supply to valve, then from valve over the heads; Enter or a double click ends it. At a valve it ends by itself. Ctrl + click passes by.",
    options: part.options,
    // A valve parts main from lateral, so a line that comes to one is at its end.
    endsAt: (point) => Boolean(point.node) && nodeOf(context.store.document, point.node)?.kind === "valve",
    finish,
  });
}
