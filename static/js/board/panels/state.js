// The state of saving, in the head, with the one thing that can be done about it.
import { button } from "../tools/elements.js";

export function createState(line) {
  let shown = null;
  return {
    // `act` is {words, run} where the person has to decide something.
    tell({ name, sentence, act = null }) {
      if (shown === sentence) return;
      shown = sentence;
      line.dataset.state = name;
      line.replaceChildren(sentence, ...(act ? [" ", button(act.words, act.run, { className: "second" })] : []));
    },
  };
}
