// Buttons under the fields: copy by a typed offset, turn by a typed angle, join, remove.

import { button, element } from "../tools/elements.js";
import { measured, measuredFigures } from "../tools/measured.js";
import { parseFigures } from "../tools/typed_figures.js";
import { pointsTyped } from "../tools/drawn_points.js";

/** A small form of one typed figure; `act(text)` gives a sentence where it cannot be done. */
function figureForm({ name, label, value, verb }, act, board) {
  const input = element("input", { id: `property-${name}`, value, autocomplete: "off" });
  const error = element("p", { className: "errorlist", role: "alert" });
  const form = element("form", { className: "property-act" }, element("label", { for: input.id, textContent: label }), input, element("button", { type: "submit", className: "second", textContent: verb }), error);
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const refused = await act(input.value);
    error.textContent = refused ?? "";
    if (!refused) board.focus();
  });
  return form;
}

async function copyBy(context, actions, text) {
  const parsed = parseFigures(text);
  if (parsed.kind === "refused") return parsed.sentence;
  if (!["step", "place", "polar"].includes(parsed.kind)) return 'Type east and north, "3; 4", or a length at a bearing, "6 @ 90".';
  const answer = await measuredFigures(context, parsed);
  if (answer.refused || answer.question) return answer.refused ?? answer.question.sentence;
  const [offset] = pointsTyped(answer.figures, { from: [0, 0] }).points;
  actions.copyBy(offset, [...context.store.selection]);
  return null;
}

async function turnBy(context, actions, text) {
  const below = text.trim().startsWith("-");
  const answer = await measured(context, "angle", text.trim().replace(/^-/, ""));
  if (answer.refused || answer.question) return answer.refused ?? answer.question.sentence;
  actions.turn(below ? -answer.value : answer.value);
  return null;
}

export function selectionButtons(context, actions) {
  const joins = actions.joins();
  // The button goes with what it did; the keys go on at the plan.
  const then = (act) => () => {
    act();
    context.board.focus();
  };
  return element("div", { className: "property-acts" },
    element("details", { className: "property-more" }, element("summary", { textContent: "Copy, turn" }),
      figureForm({ name: "copy", label: "Copy by east; north", value: "1; 0", verb: "Copy" }, (text) => copyBy(context, actions, text), context.board),
      figureForm({ name: "turn", label: "Turn clockwise by", value: "90", verb: "Turn" }, (text) => turnBy(context, actions, text), context.board)),
    element("div", { className: "actions" },
      joins ? button(joins === "pipes" ? "Join the pipes here" : "Join", then(() => actions.join()), { className: "second" }) : null,
      button("Show", () => context.board.zoomTo(context.store.selection), { className: "quiet" }),
      button("Remove", then(() => actions.remove()), { className: "danger" })));
}
