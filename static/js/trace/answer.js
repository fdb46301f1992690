// What the server says of the drawing, and what it refuses, beside the fields.

import { make } from "./dom.js";

export function showAnswer(root, answer) {
  if (!answer) return;
  if (answer.scale_missing) {
    root.replaceChildren(make("p", { textContent: answer.scale_missing }));
    return;
  }
  root.replaceChildren(
    make("p", {}, make("span", { className: `tag ${answer.tone}`, textContent: answer.verdict })),
    ...answer.sentences.map((text) => make("p", { textContent: text })),
    make("p", { className: "hint", textContent: `${answer.per_pixel} ${answer.error}` }),
  );
}

/** Each sentence beside its field; returns those that have no field of their own. */
export function showProblems(problems) {
  for (const old of document.querySelectorAll(".trace-wrong")) old.remove();
  return problems.filter((problem) => !besideField(problem)).map((problem) => problem.sentence);
}

function besideField({ part, field, sentence }) {
  const name = CSS.escape(part);
  const root = document.querySelector(`[data-bar="${name}"]`) ?? document.querySelector(`[data-outline="${name}"]`);
  const control = root?.querySelector(`[data-key="${CSS.escape(field || "none")}"]`);
  if (!root) return false;
  const said = make("p", { className: "errorlist trace-wrong", textContent: sentence });
  if (control) control.closest("label").after(said);
  else root.append(said);
  return true;
}
