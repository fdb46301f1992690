// Undo, redo, keeping a revision and the ways out of the board.
import { element } from "../tools/elements.js";

const NAME_LENGTH = 120;

export function createActions({ section, store, urls, keep, discard, say }) {
  const undo = command("Undo", "second", () => store.undo());
  const redo = command("Redo", "second", () => store.redo());
  const keeping = command("Keep as revision", "", keep);
  section.append(undo, redo, keeping);
  if (urls.plan) section.append(element("a", { className: "button quiet", href: urls.plan, textContent: "Plan page" }));
  if (urls.discard) section.append(command("Discard draft", "quiet", discard));

  function command(words, className, act) {
    const button = element("button", { type: "button", className, textContent: words });
    button.addEventListener("click", act);
    return button;
  }

  function refresh() {
    undo.disabled = !store.canUndo;
    redo.disabled = !store.canRedo;
    const name = store.undoName;
    undo.title = name ? `Undo: ${name}` : "";
  }

  store.on("document", refresh);
  refresh();

  return {
    busy(on) {
      keeping.disabled = on;
      if (on) say("Keeping the revision…");
    },
  };
}


export function nameRefusal(text) {
  if (!text.trim()) return "Give it a name that the office will know it by, such as “With drip in the bed”.";
  return text.length > NAME_LENGTH ? `At most ${NAME_LENGTH} characters.` : null;
}
