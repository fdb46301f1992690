// A valve opens one zone.

import { deviceTool } from "./device_tool.js";

export const createTool = (context) => deviceTool(context, {
  kind: "valve", label: "Valve", key: "V", group: "Water",
  help: 'Click where the valve goes, or type its place, "-1; 6". Two valves may share a box.',
});
