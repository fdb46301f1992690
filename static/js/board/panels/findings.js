// What the check found, and where the drawing has gaps; each line leads to its place on the plan.
import { element } from "../tools/elements.js";
import { countWords, groupFindings } from "./finding_groups.js";

const SIGNS = { stop: "⯃", warn: "▲", note: "■" };

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
    const sign = element("span", { className: "board-finding-sign", textContent: SIGNS[severity] ?? "▲", "aria-hidden": "true" });
    const named = element("span", { className: "hidden-visually", textContent: `${word}: ` });
    const fresh = isNew ? element("span", { className: "tag note", textContent: "new" }) : null;
    const button = element("button", { type: "button", className: `board-finding ${severity}` }, sign, named, text, fresh);
    button.disabled = !known.length;
    button.addEventListener("click", () => goTo(known));
    return element("li", {}, button);
  }

  function group(title, lines) {
    return element("div", { className: "board-finding-group" },
      element("h3", { textContent: title }), element("ul", { className: "board-lines" }, ...lines));
  }

  function problemGroup(problems) {
    const lines = problems.map(({ entity, sentence }) =>
      line({ severity: "warn", word: "Gap", sentence, ids: store.document && entity ? [entity] : [] }));
    return group("Not drawn to the end yet", lines);
  }

  function render() {
    if (!report) return;
    const { findings = [], problems = [] } = report;
    const fresh = new Set(report.moved?.findings_new ?? []);
    const groups = groupFindings(findings, store.selection).map(({ title, findings: some }) =>
      group(title, some.map((one) => line({ ...one, ids: one.where ?? [], isNew: fresh.has(one.key) }))));
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
