// What the check says of the one thing that is selected: a head's pressure and throw, a pipe's flow.
import { element } from "../tools/elements.js";

const WORST_WORDS = { stop: ["stop", "will not work"], warn: ["warn", "to decide"], good: ["good", "works"] };

export function figuresOf(report, id) {
  const head = report?.heads?.[id];
  if (head) return [["Pressure", head.pressure], ["Throw", head.throw], ["Flow", head.flow], ["Zone", head.zone]];
  const pipe = report?.pipes?.[id];
  if (pipe) return [["Size", pipe.size], ["Length", pipe.length], ["Flow", pipe.flow], ["Velocity", pipe.velocity]];
  const cable = report?.cables?.[id];
  if (cable) return [["Length along the trench", cable.length], ["At the most", cable.limit]];
  return [];
}

export function createFigures({ section, store }) {
  let report = null;

  function render() {
    const [id, ...more] = store.selection;
    const rows = more.length ? [] : figuresOf(report, id).filter(([, value]) => value);
    section.hidden = !rows.length;
    if (!rows.length) return;
    const [kind, words] = WORST_WORDS[report.heads?.[id]?.worst] ?? [];
    const verdict = kind ? [element("span", { className: `tag ${kind}`, textContent: words })] : [];
    const list = rows.flatMap(([label, value]) => [element("dt", { textContent: label }), element("dd", { textContent: value })]);
    section.replaceChildren(
      element("h3", {}, `Checked: ${id} `, ...verdict),
      element("dl", { className: "facts" }, ...list));
  }

  store.on("selection", render);
  return {
    show(next) {
      report = next;
      render();
    },
  };
}
