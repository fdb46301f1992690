// Control cables, from device to device along the trench.

import { drawCable } from "../plan/network_edits.js";
import { lineTool } from "./line_tool.js";
import { partOption } from "./part_option.js";
import { tryEdit } from "./try_edit.js";

export function createTool(context) {
  const part = partOption(context, "cable", "Cable");
  const finish = (points) => {
    const [first, last] = [points[0], points.at(-1)];
    if (part.missing()) return context.say(part.missing()), false;
    if (!first.node || !last.node) return context.say("A cable runs from the controller to a valve, or from one device to the next."), false;
    const via = points.slice(1, -1).map((point) => point.at);
    return tryEdit(context, "Draw a cable", (doc) => drawCable(doc, first.node, last.node, { ...part.props(), via })) !== null;
  };
  return lineTool(context, {
    name: "cable", label: "Cable", key: "K", group: "Control", least: 2, wants: "cable",
    help: "Click the controller, then a valve: the cable follows the trench. Points between give it a way of its own.",
    options: part.options,
    endsAt: (point) => Boolean(point.node),
    finish,
  });
}
