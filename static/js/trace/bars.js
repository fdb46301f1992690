// The two scales in the panel: length, points of the survey, bearing, and their places as numbers.

import { removeBar, setBar, markEnd } from "./edits.js";
import { fill } from "./dom.js";
import { typedPlace } from "./places.js";

const TYPED = ["length", "first", "second", "bearing"];
const ENDS = ["first_px", "second_px"];

/** @param {HTMLElement} root a fieldset with data-bar @param {{state: Function, edit: Function, mode: Function}} board */
export function createBarPanel(root, { picture, points }, board) {
  const name = root.dataset.bar;
  const control = (key) => root.querySelector(`[data-key="${key}"]`);
  const number = (end, axis) => root.querySelector(`[data-end="${end}"][data-axis="${axis}"]`);
  for (const key of ["first", "second"]) {
    control(key).append(...points.map((point) => new Option(point, point)));
  }
  for (const key of TYPED) {
    control(key).addEventListener("input", () => {
      board.edit((trace) => setBar(trace, name, { [key]: control(key).value }));
    });
  }
  const sides = [picture.width, picture.height];
  for (const end of [0, 1]) {
    for (const axis of [0, 1]) {
      number(end, axis).addEventListener("change", () => setNumber(end, axis));
    }
  }
  root.querySelector("[data-act=mark]").addEventListener("click", () => board.mode(name));
  root.querySelector("[data-act=remove]").addEventListener("click", () => board.edit((t) => removeBar(t, name)));

  function setNumber(end, axis) {
    const value = typedPlace(number(end, axis).value, sides[axis]);
    if (value === null) return;
    const at = [...(board.state().trace[name]?.[ENDS[end]] ?? middle(end))];
    at[axis] = value;
    board.edit((trace) => markEnd(trace, name, end, at));
  }

  function middle(end) {
    return [Math.round(picture.width * (end ? 0.75 : 0.25)), Math.round(picture.height / 2)];
  }

  return {
    show({ trace, mode }) {
      const bar = trace[name];
      for (const key of TYPED) fill(control(key), bar?.[key] ?? "");
      for (const end of [0, 1]) {
        for (const axis of [0, 1]) fill(number(end, axis), String(bar?.[ENDS[end]]?.[axis] ?? ""));
      }
      const mark = root.querySelector("[data-act=mark]");
      mark.setAttribute("aria-pressed", String(mode === name));
      mark.textContent = bar?.second_px ? "Mark both points again" : "Mark two points";
      root.querySelector("[data-act=remove]").hidden = !bar;
    },
  };
}
