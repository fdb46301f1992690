// The list of outlines: name, what each becomes, its size, and its corners as numbers.

import { button, field, fill, make } from "./dom.js";
import * as edits from "./edits.js";
import { typedPlace } from "./places.js";

export function createOutlineList(root, { picture, becomes }, board) {
  let drawn = "";

  function show(state, answer) {
    const structure = JSON.stringify(state.trace.outlines.map((o) => [o.id, o.becomes, o.pixels.length]));
    if (structure !== drawn) {
      drawn = structure;
      rebuild(state.trace.outlines);
    }
    for (const outline of state.trace.outlines) refresh(outline, answer?.outlines?.[outline.id], state.current);
  }

  function rebuild(outlines) {
    const open = new Set([...root.querySelectorAll("details[open]")].map((one) => one.dataset.corners));
    const focus = document.activeElement?.dataset?.focus;
    root.replaceChildren(...outlines.map((one) => card(one, open.has(one.id))));
    if (focus) root.querySelector(`[data-focus="${CSS.escape(focus)}"]`)?.focus();
  }

  function card(outline, isOpen) {
    const { id } = outline;
    const label = input({ key: "label", focus: `${id}-label` }, "text", (text) => ({ label: text }), id);
    label.maxLength = 120;
    const depth = input({ key: "depth", focus: `${id}-depth` }, "text", (text) => ({ depth: text }), id);
    const remove = () => board.edit((trace) => edits.removeOutline(trace, id));
    const corners = make("details", { open: isOpen, data: { corners: id } },
      make("summary", { textContent: `${outline.pixels.length} corners as numbers` }), cornerTable(outline));
    return make("li", { className: "card", data: { outline: id } },
      field("Name", label), field("Becomes", kindSelect(outline)),
      ...(edits.isLine(outline) ? [field("Depth, if known", depth)] : []),
      make("p", { className: "trace-size", data: { size: "1" } }),
      make("p", { className: "errorlist", data: { wrong: "1" } }),
      corners, make("div", { className: "actions" }, button("Delete this outline", "quiet", remove)));
  }

  function input(data, type, props, id) {
    const control = make("input", { type, data, autocomplete: "off" });
    control.addEventListener("input", () => {
      board.edit((trace) => edits.setOutline(trace, id, props(control.value)));
    });
    return control;
  }

  function kindSelect({ id, becomes: what, kind }) {
    const control = make("select", { data: { key: "kind", focus: `${id}-kind` } }, ...kindOptions(becomes));
    control.value = `${what}:${kind}`;
    control.addEventListener("change", () => {
      const [to, of] = control.value.split(":");
      board.edit((trace) => edits.setOutline(trace, id, { becomes: to, kind: of, depth: "" }));
    });
    return control;
  }

  function cornerTable(outline) {
    const rows = outline.pixels.map((_, index) => cornerRow(outline, index));
    const head = ["", "Right", "Down", ""].map((text) => make("th", { textContent: text, scope: "col" }));
    return make("table", { className: "trace-corners" },
      make("thead", {}, make("tr", {}, ...head)), make("tbody", {}, ...rows));
  }

  function cornerRow({ id }, index) {
    const number = (axis) => {
      const control = make("input", { inputMode: "decimal", data: { corner: `${index}`, axis: `${axis}`, focus: `${id}-${index}-${axis}` } });
      control.setAttribute("aria-label", `Corner ${index + 1}, pixels ${axis ? "down" : "to the right"}`);
      control.addEventListener("change", () => moveCorner(id, index, axis, control.value));
      return control;
    };
    const split = button("+", "quiet", () => board.edit((trace) => edits.splitSide(trace, id, index)));
    split.setAttribute("aria-label", `A corner behind corner ${index + 1}`);
    const remove = button("✕", "quiet", () => board.edit((trace) => edits.removeCorner(trace, id, index)));
    remove.setAttribute("aria-label", `Remove corner ${index + 1}`);
    return make("tr", {}, make("th", { scope: "row", textContent: String(index + 1) }),
      make("td", {}, number(0)), make("td", {}, number(1)), make("td", { className: "trace-corner-acts" }, split, remove));
  }

  function moveCorner(id, index, axis, text) {
    const value = typedPlace(text, axis ? picture.height : picture.width);
    const outline = edits.outlineOf(board.state().trace, id);
    if (value === null || !outline) return;
    const at = outline.pixels[index].with(axis, value);
    board.edit((trace) => edits.moveHandle(trace, { part: "outline", id, index, at }, at));
  }

  function refresh(outline, said, current) {
    const item = root.querySelector(`[data-outline="${CSS.escape(outline.id)}"]`);
    item.classList.toggle("is-current", outline.id === current);
    fill(item.querySelector("[data-key=label]"), outline.label);
    fill(item.querySelector("[data-key=kind]"), `${outline.becomes}:${outline.kind}`);
    fill(item.querySelector("[data-key=depth]"), outline.depth);
    outline.pixels.forEach((at, index) => at.forEach((value, axis) => {
      fill(item.querySelector(`[data-corner="${index}"][data-axis="${axis}"]`), String(value));
    }));
    item.querySelector("[data-size]").textContent = said?.size ?? "";
    item.querySelector("[data-wrong]").textContent = said?.problem ?? "";
  }

  return { show };
}

/** The groups of what an outline may become. */
export function kindOptions(becomes) {
  return becomes.map(({ label, choices }) =>
    make("optgroup", { label }, ...choices.map(([value, text]) => new Option(text, value))));
}
