// Every tool of the board, in the order of the bar. The groups keep the bar short.

import { createTool as cable } from "./cable.js";
import { createTool as controller } from "./controller.js";
import { createTool as cut } from "./cut.js";
import { createTool as fill } from "./fill.js";
import { createTool as hand } from "./hand.js";
import { createTool as head } from "./head.js";
import { createTool as hole } from "./hole.js";
import { createTool as junction } from "./junction.js";
import { createTool as lawn } from "./lawn.js";
import { createTool as level } from "./level.js";
import { createTool as mark } from "./mark.js";
import { createTool as note } from "./note.js";
import { createTool as pipe } from "./pipe.js";
import { createTool as select } from "./select.js";
import { createTool as service } from "./service.js";
import { createTool as sleeve } from "./sleeve.js";
import { createTool as supply } from "./supply.js";
import { createTool as surface } from "./surface.js";
import { createTool as tape } from "./tape.js";
import { createTool as valve } from "./valve.js";

const TOOLS = [select, hand, lawn, hole, surface, service, mark, level, note, supply, valve, head, fill, pipe, junction, controller, cable, sleeve, tape, cut];

export const createTools = (context) => TOOLS.map((create) => create(context));

/** [[group, tools], ...] in the order of the bar; the first group has no name. */
export function grouped(tools) {
  const groups = new Map();
  for (const tool of tools) groups.set(tool.group, [...(groups.get(tool.group) ?? []), tool]);
  return [...groups];
}
