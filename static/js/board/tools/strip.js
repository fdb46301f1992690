// The strip above the plan's lower edge: what the tool will draw, and Done, Undo point, Cancel while drawing.

import { button, choice, element } from "./elements.js";

/** `run(command)` gets "done", "back" or "cancel". */
export function createStrip(middle, { run, type }) {
  const options = element("div", { className: "strip-options" });
  const pass = element("input", { type: "checkbox", id: "strip-pass" });
  const passing = element("label", { className: "check strip-pass", hidden: true }, pass, "Pass by");
  passing.title = "Set the next point without joining what lies there (Ctrl + click)";
  const typing = button("Type a figure", type, { className: "quiet", hidden: true });
  const steps = element("div", { className: "strip-steps", hidden: true },
    button("Undo point", () => run("back"), { className: "second" }),
    button("Cancel", () => run("cancel"), { className: "quiet" }),
    button("Done", () => run("done")));
  const strip = element("div", { className: "board-strip", id: "board-strip", hidden: true }, options, passing, typing, steps);
  middle.append(strip);

  // Steps keep their place while hidden points come and go, so that a thumb finds them again.
  return {
    show(tool) {
      const chosen = tool.options?.() ?? [];
      options.replaceChildren(...chosen.map(optionField), ...(tool.extra ? [tool.extra()] : []));
      passing.hidden = !tool.wants;
      pass.checked = false;
      typing.hidden = !tool.typeFigures;
      steps.hidden = true;
      strip.hidden = !chosen.length && !tool.typeFigures && !tool.commands;
    },
    drawing(on) { steps.hidden = !on; },
    // Ticked for one point: passing by is the exception.
    passing() {
      const ticked = pass.checked;
      pass.checked = false;
      return ticked;
    },
  };
}

function optionField({ name, label, options, value, change }) {
  const id = `strip-${name}`;
  return element("div", { className: "strip-option" }, element("label", { for: id, textContent: label }), choice(options, value, change, { id }));
}
