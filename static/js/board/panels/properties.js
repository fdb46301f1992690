// The fields of what is selected. Each change is one named step; what was typed wrong stays, with why beside it.

import { renameId, setProps } from "../plan/edits.js";
import { find } from "../plan/lookup.js";
import { element } from "../tools/elements.js";
import { measured } from "../tools/measured.js";
import { tryEdit } from "../tools/try_edit.js";
import { describe, kindOf } from "../tools/wording.js";
import { commonFields, commonValue } from "./fields.js";
import { control } from "./property_controls.js";
import { selectionButtons } from "./selection_buttons.js";

export function createProperties(host, context) {
  const { store, data, actions, board } = context;
  let shown = []; // what the panel shows, to leave it alone while that stays the same
  let typed = new Map(); // field name -> {text, error, question} of what was not taken

  const found = () => store.selection.map((id) => find(store.document, id)).filter(Boolean);

  function set(field, value) {
    typed.delete(field.name);
    const ids = field.of ? [field.of] : [...store.selection];
    const name = ids.length === 1 ? `Set ${field.label.toLowerCase()} of ${ids[0]}` : `Set ${field.label.toLowerCase()} of ${ids.length}`;
    const edit = (doc) => ids.reduce((next, id) => after(setProps(next, id, { [field.name]: value })), doc);
    const done = tryEdit(context, name, edit, { select: false });
    if (!done) typed.set(field.name, { text: value, error: "This was not taken." });
    render();
  }

  const after = (answer) => answer.doc ?? answer;

  // What depends on it follows; a name that is taken stays in the field, with why.
  function rename(field, text) {
    const [id] = store.selection;
    let refusal = "";
    const told = { ...context, say: (sentence) => { refusal = sentence; } };
    if (!tryEdit(told, `Rename ${id}`, (doc) => renameId(doc, id, text))) return refuse(field, text, { error: refusal });
    context.say(text === id ? "" : `${id} is ${text} now, wherever it is named.`);
    return undefined;
  }

  async function take(field, text) {
    const trimmed = text.trim();
    if (field.type === "id" && trimmed) return rename(field, trimmed);
    if (!trimmed && field.optional) return set(field, null);
    if (!trimmed && !field.optional) return refuse(field, text, { error: `Type the ${field.label.toLowerCase()}.` });
    if (field.type !== "measure") return set(field, trimmed);
    const ids = store.selection.join();
    const answer = await measured(context, field.kind, trimmed, field.kind === "reach" ? partOf() : undefined);
    if (ids !== store.selection.join()) return undefined;
    if (answer.refused) return refuse(field, text, { error: answer.refused });
    return answer.question ? refuse(field, text, { question: answer.question }) : set(field, valueOf(field, answer.value));
  }

  // A full turn is read as the bearing 0; an arc of nothing is none. Below a micrometre there is only rounding.
  const valueOf = (field, value) => (field.name === "sweep_deg" && value === 0 ? 360 : Math.round(value * 1e6) / 1e6);

  function refuse(field, text, why) {
    typed.set(field.name, { text, ...why });
    render();
    focusField(field.name);
    return undefined;
  }

  const partOf = () => commonValue(found().map((one) => one.entity), "part").value ?? undefined;

  function fieldRow(field) {
    const entities = field.of ? [store.document[field.of] ?? {}] : found().map((one) => one.entity);
    const state = { ...commonValue(entities, field.name), ...typed.get(field.name) };
    return control(field, state, { data, areas: store.document.ground?.areas ?? [], take: (text) => take(field, text), set: (value) => set(field, value) });
  }

  const watched = () => [...found().map((one) => one.entity), store.document.supply];

  function title() {
    const ids = store.selection;
    if (!ids.length) return null;
    return element("h3", { textContent: ids.length === 1 ? `${kindOf(store.document, ids[0])} ${ids[0]}` : `${ids.length} selected` });
  }

  function facts() {
    if (!store.selection.length) return element("p", { className: "hint", textContent: "Nothing. Click something on the plan, or press Tab there." });
    return store.selection.length === 1 ? element("p", { className: "hint", textContent: describe(store.document, store.selection[0], data) }) : null;
  }

  function render() {
    const focused = host.contains(document.activeElement) ? document.activeElement.id : "";
    shown = watched();
    const rows = commonFields(found()).map(fieldRow);
    const parts = [title(), facts(), ...rows, store.selection.length ? selectionButtons(context, actions) : null];
    host.replaceChildren(...parts.filter(Boolean));
    if (focused) document.getElementById(focused)?.focus();
  }

  function focusField(name) {
    const field = name ? host.querySelector(`[id="property-${name}"]`) : host.querySelector("input, select, textarea");
    const folded = field?.closest("details");
    if (folded) folded.open = true;
    field?.focus();
    field?.select?.();
  }

  store.on("selection", () => {
    typed = new Map();
    render();
  });
  store.on("document", () => {
    const now = watched();
    if (now.length !== shown.length || now.some((entity, index) => entity !== shown[index])) render();
  });
  // Enter and Escape lead back to the plan, where the keys draw; leaving the field takes what is typed.
  host.addEventListener("keydown", (event) => {
    const typedIn = event.target.matches("input:not([type=checkbox])") && !event.target.form;
    if (event.key === "Escape" || (event.key === "Enter" && typedIn)) board.focus();
  });
  render();

  return { focusField };
}
