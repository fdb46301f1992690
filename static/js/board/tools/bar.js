// The bar of tools: a button for each, in groups that fold on a narrow screen; arrow keys go through it.

import { grouped } from "./all.js";
import { button, element } from "./elements.js";

function toolButton(tool, use) {
  return button("", () => use(tool.name), { className: "tool", title: tool.help, "aria-pressed": "false", "aria-keyshortcuts": tool.key, "data-tool": tool.name });
}

function keysButton(help) {
  const made = button("", help, { className: "tool", "aria-keyshortcuts": "?" });
  made.append(element("span", { textContent: "Keys" }), element("kbd", { textContent: "?", "aria-hidden": "true" }));
  return made;
}

export function createBar(host, tools, { use, help }) {
  const buttons = new Map();
  const folds = [];

  for (const [name, members] of grouped(tools)) {
    const inside = element("div", { className: "tool-group-tools" });
    for (const tool of members) {
      const made = toolButton(tool, use);
      made.append(element("span", { textContent: tool.label }), element("kbd", { textContent: tool.key, "aria-hidden": "true" }));
      buttons.set(tool.name, made);
      inside.append(made);
    }
    if (!name) inside.append(keysButton(help));
    host.append(groupOf(name, inside));
  }

  function groupOf(name, inside) {
    if (!name) return element("div", { className: "tool-group tool-group-first" }, inside);
    const fold = button(name, () => unfold(fold), { className: "tool-fold", "aria-expanded": String(!folds.length) });
    folds.push(fold);
    return element("div", { className: "tool-group", role: "group", "aria-label": name }, fold, inside);
  }

  // One group is always unfolded, so that the plan below stays where it is.
  function unfold(chosen) {
    for (const fold of folds) fold.setAttribute("aria-expanded", String(fold === chosen));
  }

  // One stop for Tab; arrows, Home and End go on from there.
  const seen = () => [...host.querySelectorAll("button")].filter((one) => one.offsetParent !== null);
  const restAt = (chosen) => host.querySelectorAll("button").forEach((one) => { one.tabIndex = one === chosen ? 0 : -1; });
  host.addEventListener("focusin", (event) => restAt(event.target.closest("button")));
  host.addEventListener("keydown", (event) => {
    const all = seen();
    const at = all.indexOf(document.activeElement);
    const steps = { ArrowDown: at + 1, ArrowRight: at + 1, ArrowUp: at - 1, ArrowLeft: at - 1, Home: 0, End: all.length - 1 };
    if (at < 0 || !(event.key in steps) || event.ctrlKey || event.altKey) return;
    event.preventDefault();
    all[(steps[event.key] + all.length) % all.length].focus();
  });
  restAt(buttons.values().next().value);

  return {
    press(name) {
      for (const [tool, made] of buttons) made.setAttribute("aria-pressed", String(tool === name));
      restAt(buttons.get(name));
      const fold = buttons.get(name).closest(".tool-group").querySelector(".tool-fold");
      if (fold) unfold(fold);
    },
    focus: () => (seen().find((one) => one.getAttribute("aria-pressed") === "true") ?? seen()[0])?.focus(),
  };
}
