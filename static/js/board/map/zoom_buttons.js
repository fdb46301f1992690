// Zoom in, out and to the whole site, and which way north is.
import { Control } from "./ol.js";
import { zoomBy } from "./view.js";

const STEP = 1.6;

function button(sign, label, act) {
  const element = document.createElement("button");
  element.type = "button";
  element.className = "board-zoom-button";
  element.textContent = sign;
  element.setAttribute("aria-label", label);
  element.title = label;
  element.addEventListener("click", act);
  return element;
}

export function createZoomButtons(view, zoomAll) {
  const element = document.createElement("div");
  element.className = "board-zoom ol-unselectable";
  const north = document.createElement("span");
  north.className = "board-north";
  north.textContent = "N";
  north.title = "North is up";
  element.append(
    north,
    button("+", "Zoom in", () => zoomBy(view, STEP)),
    button("−", "Zoom out", () => zoomBy(view, 1 / STEP)),
    button("⤢", "Show the whole site", zoomAll),
  );
  return new Control({ element });
}
