// Typed figures read by the server, the only one that knows units: each text becomes metres or degrees.

import { figuresMeasured, figuresToMeasure } from "./typed_figures.js";

/**
 * One text read: {value, shown}, {question, ...} where the server asks back, or {refused}.
 * A bare nought needs no unit and no journey.
 */
export async function measured({ ask, data }, kind, text, part) {
  if (/^0+([.,]0+)?$/.test(text) && kind !== "reach") return { value: 0, shown: "0", question: null };
  try {
    return await ask(data.urls.measure, { kind, text, ...(part ? { part } : {}) });
  } catch (failure) {
    return { refused: failure.message };
  }
}

/**
 * All figures of what was typed: {figures} in metres and degrees with {shown}; {refused}; or {question, name}
 * for the first that the server asks about. `settled` holds values chosen before, by name.
 */
export async function measuredFigures(context, parsed, settled = {}) {
  const asked = figuresToMeasure(parsed);
  const answers = await Promise.all(asked.map(({ name, kind, text }) => (name in settled ? { value: settled[name].value, shown: settled[name].shown } : measured(context, kind, text))));
  const values = {};
  for (const [index, answer] of answers.entries()) {
    if (answer.refused) return { refused: answer.refused };
    if (answer.question) return { question: answer.question, name: asked[index].name };
    values[asked[index].name] = answer.value;
  }
  return { figures: figuresMeasured(parsed, values), shown: answers.map((answer) => answer.shown).join(", ") };
}
