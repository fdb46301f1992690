// Enter goes on to the next figure; a pasted page fills row after row.
import { holdsBothTapes, nextStop, pastedLines } from "./names.js";
import { growAll, isFilled, rowsOf } from "./rows.js";

export function onEnter(form, event) {
  const field = event.target;
  if (event.key !== "Enter" || event.shiftKey || !field.matches("input:not([type=checkbox])")) return;
  event.preventDefault();
  if (event.ctrlKey || event.metaKey) {
    form.requestSubmit();
    return;
  }
  const quick = [...form.querySelectorAll("[data-quick]")].filter((one) => !one.closest("details:not([open])") && !isAnswered(one));
  const here = quick.includes(field) ? quick.indexOf(field) : quick.findIndex((one) => follows(field, one)) - 1;
  const next = quick.includes(field) ? quick[nextStop(quick.map(stopOf), here, shortLists(form))] : quick[here + 1];
  (next ?? form.querySelector(".actions button[type=submit]:not([name=add])"))?.focus();
  next?.select?.();
}

export function onPaste(form, event) {
  const list = event.target.closest("[data-list]");
  const lines = pastedLines(event.clipboardData?.getData("text") ?? "");
  if (!list || lines.length < 2 || !event.target.matches("[data-figure]")) return;
  event.preventDefault();
  const name = event.target.name.split("-").at(-1);
  let place = rowsOf(list).indexOf(event.target.closest("[data-row]"));
  for (const line of lines) {
    const field = rowsOf(list)[place]?.querySelector(`[name$="-${name}"]`);
    if (!field) break;
    field.value = line;
    growAll(form);
    place += 1;
  }
  event.target.dispatchEvent(new Event("change", { bubbles: true }));
}

const follows = (field, other) => Boolean(field.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING);

// A second tape that the first field holds already.
function isAnswered(field) {
  const first = field.name.endsWith("-second_tape") && field.closest("[data-row]").querySelector('[name$="-first_tape"]');
  return Boolean(first) && !field.value && field !== document.activeElement && holdsBothTapes(first.value);
}

const stopOf = (field) => {
  const row = field.closest("[data-row]");
  return { list: field.closest("[data-list]")?.dataset.list ?? "", isRowFilled: !row || isFilled(row) };
};

const shortLists = (form) => new Set([...form.querySelectorAll("[data-short]")].map((list) => list.dataset.list));
