// What the lines and signs of the plan mean, each with its words.
import { element } from "../tools/elements.js";

const ROWS = [
  ["main", "Main: solid, heavier with its size"],
  ["lateral", "Lateral: broken"],
  ["cable", "Control cable"],
  ["machine", "Trench by machine: a band"],
  ["hand", "Trench by hand: a ladder"],
  ["bore", "Bored: a tube"],
  ["sleeve", "Sleeve"],
  ["own-valve", "Head with its own valve"],
  ["unsure", "Point measured unsurely"],
  ["stop", "Stop"],
  ["warn", "To decide"],
  ["note", "Good to know"],
];

export function createKey(section) {
  const rows = ROWS.map(([kind, words]) =>
    element("li", {}, element("span", { className: `board-key ${kind}`, "aria-hidden": "true" }), words));
  section.append(element("h3", { textContent: "Signs" }), element("ul", { className: "board-lines board-keys" }, ...rows));
}
