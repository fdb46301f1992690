// A photo's place: a tap on the plan fills the fields of the form, and the fields show on the plan.

import { bearingDeg, fromMetres, toMetres, toPage } from "./tap_to_metres.js";
import { readLength, writeLength } from "./typed_length.js";

const SVG = "http://www.w3.org/2000/svg";
const holder = document.getElementById("photo-map");

function drawn(name, attributes) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

function marker() {
  const group = drawn("g", { "pointer-events": "none" });
  group.append(
    drawn("path", { d: "M0 0L-14 -34L14 -34Z", fill: "#d07a00", "fill-opacity": ".45" }),
    drawn("circle", { r: 8, fill: "#d07a00", stroke: "#fff", "stroke-width": 3 }),
  );
  return group;
}

function wire() {
  const svg = holder.querySelector("svg");
  const frame = Object.fromEntries(["west", "north", "scale", "left", "top"].map((n) => [n, Number(holder.dataset[n])]));
  const { units } = holder.dataset;
  const fields = document.getElementById("photo-form").elements;
  const sign = marker();
  svg.append(sign);

  function place() {
    const at = [readLength(fields.east.value, units), readLength(fields.north.value, units)];
    return at.includes(null) ? null : at;
  }

  function show() {
    const at = place();
    sign.setAttribute("visibility", at ? "visible" : "hidden");
    if (!at) return;
    const [x, y] = fromMetres(at, frame);
    const looks = fields.looks_deg.value.trim();
    sign.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${Number(looks) || 0})`);
    sign.firstChild.setAttribute("visibility", looks ? "inherit" : "hidden");
  }

  svg.addEventListener("click", (event) => {
    const page = toPage({ x: event.clientX, y: event.clientY }, svg.getBoundingClientRect(), svg.viewBox.baseVal);
    if (!page) return;
    const tapped = toMetres(page, frame);
    const choice = holder.querySelector("[name=tap]:checked").value;
    const from = place();
    if (choice === "looks" && from) {
      const bearing = bearingDeg(from, tapped);
      if (bearing !== null) fields.looks_deg.value = bearing.toFixed(0);
    } else {
      fields.east.value = writeLength(tapped[0], units);
      fields.north.value = writeLength(tapped[1], units);
      holder.querySelector("[name=tap][value=looks]").checked = true;
    }
    show();
  });
  document.getElementById("photo-form").addEventListener("input", show);
  holder.querySelector(".taps-what").hidden = false;
  show();
}

if (holder) wire();
