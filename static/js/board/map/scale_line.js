// The scale of the plan, in a round number of the site's units.
import { Control } from "./ol.js";
import { metresPerUnit, roundBelow, unitWord } from "./site_units.js";

const WIDEST_PX = 140;

export function scaleStep(metresPerPixel, units) {
  const unit_m = metresPerUnit(units);
  const length = roundBelow((WIDEST_PX * metresPerPixel) / unit_m);
  const places = Math.max(0, -Math.floor(Math.log10(length) + 1e-9));
  return { text: `${length.toFixed(places)} ${unitWord(units)}`, width_px: (length * unit_m) / metresPerPixel };
}

export function createScaleLine(units) {
  const element = document.createElement("div");
  element.className = "board-scale ol-unselectable";
  const bar = element.appendChild(document.createElement("span"));
  const text = element.appendChild(document.createElement("span"));
  let drawn = null;
  return new Control({
    element,
    render: ({ frameState }) => {
      const resolution = frameState?.viewState.resolution;
      if (!resolution || resolution === drawn) return;
      drawn = resolution;
      const step = scaleStep(resolution, units);
      bar.style.width = `${step.width_px}px`;
      text.textContent = step.text;
    },
  });
}
