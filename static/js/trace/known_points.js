// Further points of the survey seen in the picture, and whether to undo a slant by them.

import { button, make } from "./dom.js";
import { removeKnown } from "./edits.js";

export function createKnownPanel(root, { points }, board) {
  const chosen = root.querySelector("[data-key=point]");
  const list = root.querySelector("[data-list=known]");
  const slanted = root.querySelector("[data-key=slanted]");
  const mark = root.querySelector("[data-act=mark-known]");
  chosen.append(...points.map((point) => new Option(point, point)));
  chosen.addEventListener("change", () => board.set({ point: chosen.value }));
  mark.addEventListener("click", () => {
    board.set({ point: chosen.value });
    if (chosen.value) board.mode("known");
    else chosen.focus();
  });
  slanted.addEventListener("change", () => {
    board.edit((trace) => ({ ...trace, slanted: slanted.checked }));
  });
  return {
    show({ trace, mode }, answer) {
      mark.setAttribute("aria-pressed", String(mode === "known"));
      slanted.checked = trace.slanted;
      slanted.disabled = !trace.slanted && !answer?.can_slant;
      list.replaceChildren(...trace.known.map((one) => make("li", {},
        make("span", { textContent: `${one.point} at ${one.at_px.join(", ")} ` }),
        button(`Remove ${one.point}`, "quiet", () => board.edit((t) => removeKnown(t, one.point))))));
    },
  };
}
