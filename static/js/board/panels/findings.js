// What the check found, and where the drawing has gaps; each line leads to its place on the plan.
import { button, element } from "../tools/elements.js";
import { countWords, groupFindings } from "./finding_groups.js";

// A plan in its first minutes can have hundreds; a list of all would be slow, and nobody reads it.
const AT_FIRST = 25;

export function createFindings({ section, count, store, board }) {
  let report = null;
  let stale = "";
  const status = element("p", { className: "board-check-state", role: "status" });
  const list = element("div", { className: "board-finding-list" });
  section.append(status, list);

  function goTo(ids) {
    const here = ids.filter(Boolean);
    board.emphasise(here);
    if (!here.length) return;
    store.select(here);
    board.zoomTo(here);
  }

  function line({ severity, sentence, word, ids, isNew }) {
    const known = ids.filter(Boolean);
    const text = element("span", { className: "board-finding-text", textContent: sentence });
    const sign = element("span", { className: `board-key ${severity}`, "aria-hidden": "true" });
    const named = element("span", { className: "hidden-visually", textContent: `${word}: ` });
    const fresh = isNew ? element("span", { className: "tag note", textContent: "new" }) : null;
    const entry = element("button", { type: "button", className: `board-finding ${severity}` }, sign, named, text, fresh);
    entry.disabled = !known.length;
    entry.addEventListener("click", () => goTo(known));
    return element("li", {}, entry);
  }

  function group(title, entries) {
    const rows = element("ul", { className: "board-lines" }, ...entries.slice(0, AT_FIRST).map(line));
    const rest = entries.slice(AT_FIRST);
    const more = rest.length ? button(`Show ${rest.length} more`, showRest, { className: "quiet" }) : null;
    function showRest() {
      rows.append(...rest.map(line));
      more.remove();
    }
    return element("div", { className: "board-finding-group" }, element("h3", { textContent: title }), rows, more);
  }

  function problemGroup(problems) {
    const entries = problems.map(({ entity, sentence }) => ({ severity: "warn", word: "Gap", sentence, ids: [entity] }));
    return group("Not drawn to the end yet", entries);
  }

  function render() {
    if (!report) return;
    const { findings = [], problems = [] } = report;
    const fresh = new Set(report.moved?.findings_new ?? []);
    const groups = groupFindings(findings, store.selection).map(({ title, findings: some }) =>
      group(title, some.map((one) => ({ ...one, ids: one.where ?? [], isNew: fresh.has(one.key) }))));
    if (problems.length) groups.push(problemGroup(problems));
    if (!groups.length) groups.push(element("p", { className: "hint", textContent: "Nothing was found. That is good." }));
    list.replaceChildren(...groups);
    count.textContent = countWords(findings, problems);
  }

  store.on("selection", render);

  return {
    show(next) {
      report = next;
      render();
    },
    tell({ name, sentence }) {
      if (sentence === stale) return;
      stale = sentence;
      status.textContent = sentence;
      section.classList.toggle("is-stale", name !== "fresh");
      section.classList.toggle("is-failed", name === "failed");
    },
  };
}
