// The list of keys behind "?".

import { COMMANDS, WHILE_DRAWING, WHILE_SELECTING } from "../shortcuts.js";
import { button, element } from "./elements.js";

function table(title, rows) {
  const body = element("tbody", {}, ...rows.map(([keys, says]) => element("tr", {}, element("th", { scope: "row", textContent: keys }), element("td", { textContent: says }))));
  return element("table", {}, element("caption", { textContent: title }), body);
}

/** A dialog that lists them; gives the function that opens it. */
export function createKeyList(tools) {
  const dialog = element("dialog", { className: "board-keys-list", "aria-label": "Keys" });
  dialog.append(
    element("h2", { textContent: "Keys" }),
    element("p", { className: "hint", textContent: "They work while the plan or the bar of tools has the focus, never in a field." }),
    table("Tools", tools.map((tool) => [tool.key, tool.label])),
    table("While drawing", WHILE_DRAWING),
    table("While selecting", WHILE_SELECTING),
    table("Always", COMMANDS.map((command) => [command.keys.join(", "), command.says])),
    element("p", {}, button("Close", () => dialog.close())));
  document.body.append(dialog);
  return () => dialog.showModal();
}
