// The controller, where the cables begin.

import { deviceTool } from "./device_tool.js";

export const createTool = (context) => deviceTool(context, {
  kind: "controller", label: "Controller", key: "C", group: "Control",
  help: "Click where the controller hangs. Its mains connection is a licensed electrician's work.",
});
