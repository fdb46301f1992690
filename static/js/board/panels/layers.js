// Which layers show, and what the colours of the wetting mean.
import { element } from "../tools/elements.js";

export function createLayersPanel({ section, board, remember }) {
  const boxes = new Map();
  const legend = element("div", { className: "board-legend", hidden: true });
  const said = element("p", { className: "hint", role: "status" });

  function row({ name, label, shown }) {
    const box = element("input", { type: "checkbox", checked: shown });
    box.addEventListener("change", () => board.setLayer(name, box.checked));
    boxes.set(name, box);
    return element("label", { className: "check" }, box, label);
  }

  function swatch({ colour, text }) {
    const patch = element("span", { className: "board-swatch", "aria-hidden": "true" });
    patch.style.background = colour;
    return element("li", {}, patch, text);
  }

  section.append(element("div", { className: "board-layer-list" }, ...board.layers.map(row)), said, legend);
  board.onLayers((name, shown) => {
    boxes.get(name).checked = shown;
    remember(board.layers);
  });

  return {
    showWetting({ name, answer, sentence }) {
      said.textContent = sentence;
      if (name === "off" || name === "none") legend.hidden = true;
      if (!answer) return;
      legend.hidden = false;
      legend.replaceChildren(
        element("h3", { textContent: "Wetting" }),
        element("ul", { className: "board-lines" }, ...(answer.legend ?? []).map(swatch)));
    },
  };
}
