// Rows that grow by themselves: a fresh one is ready below the last that is filled.
import { nextName } from "./names.js";

const MOST_ROWS = 120;
const CARRIED = ["first", "second", "side", "start", "end", "off"];
const NAMED = ["point"];

export const rowsOf = (list) => [...list.querySelectorAll(":scope > [data-row]")];
export const isFilled = (row) => [...row.querySelectorAll("[data-figure]")].some((field) => field.value.trim());
const fieldOf = (row, name) => row.querySelector(`[name$="-${name}"]`);

export function growAll(form) {
  for (const list of form.querySelectorAll("[data-list]")) grow(list);
  nameFreshRows(form);
}

// One empty row below the last filled one, made from the list's template.
export function grow(list) {
  const rows = rowsOf(list);
  const last = rows.at(-1);
  if (rows.length >= MOST_ROWS || (last && !isFilled(last))) return;
  const total = list.querySelector('[name$="-TOTAL_FORMS"]');
  const template = list.querySelector("template");
  const made = template.content.firstElementChild.cloneNode(true);
  for (const node of [made, ...made.querySelectorAll("*")]) {
    for (const name of ["id", "name", "for", "aria-describedby"]) {
      const value = node.getAttribute(name);
      if (value?.includes("__prefix__")) node.setAttribute(name, value.replace("__prefix__", total.value));
    }
  }
  total.value = String(rows.length + 1);
  list.insertBefore(made, template);
  if (last) carry(last, made);
}

// Marks and side chosen in one row hold for the rows below that are still empty.
export function carryDown(row) {
  let below = row.nextElementSibling;
  while (below?.matches("[data-row]") && !isFilled(below)) {
    carry(row, below);
    below = below.nextElementSibling;
  }
}

// The next free number, in every row that is still empty and whose name nobody typed.
export function nameFreshRows(form) {
  const fields = NAMED.flatMap((name) => [...form.querySelectorAll(`[data-row] [name$="-${name}"]`)]);
  const isOpen = (field) => !isFilled(field.closest("[data-row]")) && !field.dataset.typed;
  const name = nextName(fields.filter((field) => !isOpen(field)).map((field) => field.value.trim()));
  for (const field of fields.filter(isOpen)) field.value = name;
}

function carry(from, to) {
  const list = from.closest("[data-list]").dataset.list;
  if (list === "tape") return;
  for (const name of CARRIED) {
    const [source, target] = [fieldOf(from, name), fieldOf(to, name)];
    if (source && target && !target.dataset.typed && !(name === "off" && !source.value)) target.value = source.value;
  }
}
