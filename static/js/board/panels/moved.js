// What the last change moved, in a few short sentences that are read out.
import { element } from "../tools/elements.js";

const MOST = 4;

export function movedSentences(report) {
  const moved = report?.moved;
  if (!moved) return [];
  const keys = new Set(moved.findings_new ?? []);
  const fresh = (report.findings ?? []).filter(({ key }) => keys.has(key)).map(({ sentence }) => `New: ${sentence}`);
  const gone = (moved.findings_gone ?? []).map(({ sentence }) => `Gone: ${sentence}`);
  const all = [...(moved.sentences ?? []), ...fresh, ...gone];
  return all.length > MOST ? [...all.slice(0, MOST), `and ${all.length - MOST} more.`] : all;
}

export function createMoved(section) {
  const list = section.appendChild(element("ul", { className: "board-lines" }));
  return {
    show(report) {
      const sentences = movedSentences(report);
      if (!sentences.length && !report?.moved) return;
      list.replaceChildren(...sentences.map((sentence) => element("li", { textContent: sentence })));
      section.hidden = !sentences.length;
    },
  };
}
