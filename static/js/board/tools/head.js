// Heads. The arc is set by the ground where the head stands.

import { sectorPoints } from "../plan/arcs.js";
import { addNode } from "../plan/network_edits.js";
import { guessArc } from "./arc_guess.js";
import { pipeUnder } from "./device_tool.js";
import { partOption } from "./part_option.js";
import { pointTool } from "./point_tool.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const part = partOption(context, "head");
  const arcAt = (at) => guessArc(context.store.document, at, part.part()?.arc);

  const ghost = (at) => {
    const reach_m = part.part()?.reach_m;
    if (!reach_m) return [];
    const { from_deg, sweep_deg } = arcAt(at);
    return [{ points: sectorPoints(at, reach_m, from_deg, sweep_deg), kind: "arc" }];
  };

  const place = (at, found) => {
    if (part.missing()) return context.say(part.missing()), null;
    const { area, ...arc } = arcAt(at);
    const node = { kind: "head", at, ...part.props(), ...arc, ...(area ? { area } : {}) };
    return tryEdit(context, "Place a head", (doc) => addNode(doc, node, { on: pipeUnder(found) }), { group: "first" });
  };

  return pointTool(context, {
    name: "head", label: "Head", key: "H", group: "Water", options: part.options, ghost, place,
    help: "Click where the head stands: its arc follows the corner, the edge or the open lawn. On a pipe it splits the pipe.",
  });
}
