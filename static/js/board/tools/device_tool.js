// Tools that place a node with a part: a valve, a controller. On a pipe they split it.

import { addNode } from "../plan/network_edits.js";
import { partOption } from "./part_option.js";
import { pointTool } from "./point_tool.js";
import { tryEdit } from "./try_edit.js";

export const pipeUnder = (found) => (found?.what === "pipe" ? found.id : null);

export function deviceTool(context, { kind, ...spec }) {
  const part = partOption(context, kind);
  const place = (at, found) => {
    if (part.missing()) return context.say(part.missing()), null;
    const node = { kind, at, ...part.props() };
    return tryEdit(context, `Place a ${kind}`, (doc) => addNode(doc, node, { on: pipeUnder(found) }), { group: "first" });
  };
  return pointTool(context, { ...spec, name: kind, options: part.options, place });
}
