// Keys of the board, and what each does. Pure: the toolbar listens, this only says what a key means.

export const COMMANDS = [
  { name: "undo", keys: ["Ctrl+Z"], says: "Undo" },
  { name: "redo", keys: ["Ctrl+Shift+Z", "Ctrl+Y"], says: "Redo" },
  { name: "copy", keys: ["Ctrl+C"], says: "Copy what is selected" },
  { name: "paste", keys: ["Ctrl+V"], says: "Put the copy down under the pointer or the cross" },
  { name: "all", keys: ["Ctrl+A"], says: "Select everything" },
  { name: "everything", keys: ["0"], says: "See the whole site (while nothing is being drawn)" },
  { name: "help", keys: ["?"], says: "This list" },
];

export const WHILE_DRAWING = [
  ["Click, or drag on a touch screen", "Set a point"],
  ["Double click, Enter on the last point, or Done", "Finish"],
  ["Backspace", "Take the last point back"],
  ["Escape", "Take the last point back; with none left, leave the tool"],
  ["Shift", "Do not snap"],
  ["Ctrl or Alt while clicking", "Pass by: do not join what lies there"],
  ["Arrow keys", "Move the cross by 0.10 m (Shift 1 m, Alt 0.01 m)"],
  ["Enter or Space", "Set a point at the cross; on the last point, finish"],
  ["24", "24 along the guide"],
  ["24 @ 90", "24 at a bearing, clockwise from north"],
  ["24 x 12", "A rectangle: 24 to the east, 12 to the north"],
  ["3; 4", "The place 3 east and 4 north of the origin"],
  ["+ 3; 4", "3 east and 4 north of the last point"],
];

export const WHILE_SELECTING = [
  ["Click, Shift-click, drag a box", "Select one, more, all in the box"],
  ["Tab, Shift+Tab", "Next, previous thing on the plan"],
  ["Arrow keys", "Move what is selected by 0.10 m (Shift 1 m, Alt 0.01 m)"],
  ["Enter", "Go to its fields"],
  ["Delete", "Remove it"],
  ["R", "Turn it by a typed angle"],
  ["Double click on a corner", "Take the corner out"],
  ["Press long on a touch screen", "Add or take out a corner"],
  ["Escape", "Select nothing; once more: to the tools"],
];

const MODIFIERS = new Set(["Shift", "Control", "Alt", "Meta"]);

/** How a key event is written in the tables: "Ctrl+Shift+Z", "L", "?". */
export function keyName(event) {
  if (MODIFIERS.has(event.key)) return "";
  const letter = event.key.length === 1 ? event.key.toUpperCase() : event.key;
  const command = event.ctrlKey || event.metaKey;
  const named = letter.length > 1 || command || /[A-Z]/.test(letter);
  return [command && "Ctrl", event.altKey && "Alt", event.shiftKey && named && "Shift", letter].filter(Boolean).join("+");
}

/** The command or tool that a key means: {command}, {tool} or null. */
export function meaningOf(event, tools) {
  const key = keyName(event);
  if (!key) return null;
  const command = COMMANDS.find((one) => one.keys.includes(key));
  if (command) return { command: command.name };
  const tool = tools.find((one) => one.key === key);
  return tool ? { tool: tool.name } : null;
}

const NO_TEXT = new Set(["button", "checkbox", "radio", "submit", "reset", "range", "color", "file"]);

/** Whether keys belong to what is focused: a field that is typed into, a choice, an open dialog. */
export function ownsItsKeys(element) {
  if (!element) return false;
  if (element.isContentEditable || element.closest?.("dialog[open]")) return true;
  const tag = element.tagName?.toLowerCase();
  return tag === "textarea" || tag === "select" || (tag === "input" && !NO_TEXT.has(element.type));
}

/** How far an arrow key moves: [east, north] in metres, or null. */
export function arrowStep(event) {
  const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  const way = ways[event.key];
  if (!way || event.ctrlKey || event.metaKey) return null;
  const step_m = event.shiftKey ? 1 : event.altKey ? 0.01 : 0.1;
  return way.map((part) => part * step_m);
}
