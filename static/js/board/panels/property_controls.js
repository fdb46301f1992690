// One field of the properties panel with its label, its question and its error.

import { button, choice, element } from "../tools/elements.js";
import { textOf } from "./fields.js";

const MIXED = "different";

function chosenFrom(field, options, { value, mixed }, set) {
  const empty = field.optional ? [["", field.empty ?? "none"]] : [];
  const many = mixed ? [["", MIXED]] : [];
  const known = mixed || value === null || options.some(([code]) => code === value);
  const strange = known ? [] : [[value, value]];
  return choice([...many, ...empty, ...strange, ...options], value ?? "", (code) => set(code || null), { id: `property-${field.name}` });
}

function typedIn(field, { value, mixed, text }, { data, take }) {
  const stands = text ?? (field.type === "measure" ? textOf(field.kind, value, data.site.units) : value ?? "");
  const made = element(field.type === "long" ? "textarea" : "input", { id: `property-${field.name}`, value: stands, autocomplete: "off", placeholder: mixed ? MIXED : field.empty ?? "" });
  made.onchange = () => take(made.value);
  return made;
}

function inputOf(field, state, { data, areas, take, set }) {
  if (field.type === "choice") return chosenFrom(field, data.choices[field.choices] ?? [], state, set);
  if (field.type === "part") return chosenFrom(field, (data.parts[field.parts] ?? []).map((part) => [part.code, part.label]), state, set);
  if (field.type === "area") return chosenFrom(field, areas.map((area) => [area.id, area.label || area.id]), state, set);
  return typedIn(field, state, { data, take });
}

function ticked(field, { value, mixed }, set) {
  const box = element("input", { type: "checkbox", id: `property-${field.name}`, checked: Boolean(value), indeterminate: mixed });
  box.onchange = () => set(box.checked);
  return element("label", { className: "check" }, box, field.label);
}

function asked({ question }, set) {
  if (!question) return null;
  const answers = question.choices.map((one) => button(one.text, () => set(one.value), { className: "second" }));
  return element("div", { className: "property-asked", role: "alert" }, element("p", { textContent: question.sentence }), ...answers);
}

/** The row of a field. `state` is {value, mixed, text?, error?, question?}; take(text) reads what is typed, set(value) sets. */
export function control(field, state, acts) {
  if (field.type === "check") return ticked(field, state, acts.set);
  if (field.type === "count") return element("p", { className: "hint", textContent: `${field.label}: ${state.value?.length ?? 0}` });
  const input = inputOf(field, state, acts);
  const error = state.error ? element("ul", { className: "errorlist", id: `property-${field.name}-error` }, element("li", { textContent: state.error })) : null;
  if (error) {
    input.setAttribute("aria-invalid", "true");
    input.setAttribute("aria-describedby", error.id);
  }
  const label = element("label", { for: input.id, textContent: field.label });
  return element("div", { className: `field${error ? " wrong" : ""}` }, label, input, error, asked(state, acts.set));
}
