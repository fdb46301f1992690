// The flat view of a site: metres east and north, no globe behind them.
import { Projection, View } from "./ol.js";

// The plan document allows coordinates within 5 km of the origin.
const LIMIT_M = 5000;
const FINEST_M_PER_PX = 0.002;
const COARSEST_M_PER_PX = 12;
// What is shown round a point or a site that has no size yet.
const LEAST_SPAN_M = 4;
const EMPTY_SPAN_M = 30;

export const projection = new Projection({
  code: "SITE:metres",
  units: "m",
  extent: [-LIMIT_M, -LIMIT_M, LIMIT_M, LIMIT_M],
  global: false,
});

export function createView() {
  return new View({
    projection,
    center: [0, 0],
    resolution: 0.05,
    minResolution: FINEST_M_PER_PX,
    maxResolution: COARSEST_M_PER_PX,
    enableRotation: false,
    constrainResolution: false,
    showFullExtent: true,
  });
}

export function grownExtent([west, south, east, north], least_m) {
  const wide = Math.max(0, (least_m - (east - west)) / 2);
  const tall = Math.max(0, (least_m - (north - south)) / 2);
  return [west - wide, south - tall, east + wide, north + tall];
}

export function extentAbout([x, y]) {
  const half = EMPTY_SPAN_M / 2;
  return [x - half, y - half, x + half, y + half];
}

export function fitExtent(map, extent, { slowly = false } = {}) {
  const [wide, tall] = map.getSize() ?? [0, 0];
  if (!wide || !tall) return;
  const air = Math.min(48, wide * 0.08, tall * 0.08);
  map.getView().fit(grownExtent(extent, LEAST_SPAN_M), {
    size: [wide, tall],
    padding: [air, air, air, air],
    duration: slowly && !prefersStill() ? 250 : 0,
  });
}

// Fits again while the page still finds its shape, until somebody takes hold of the map.
export function fitUntilTouched(map, fit) {
  const target = map.getTargetElement();
  let touched = false;
  for (const event of ["pointerdown", "wheel", "keydown"]) {
    target.addEventListener(event, () => { touched = true; }, { capture: true, passive: true });
  }
  map.on("change:size", () => {
    if (!touched) fit();
  });
  fit();
}

export function zoomBy(view, factor) {
  view.animate({ resolution: view.getResolution() / factor, duration: prefersStill() ? 0 : 150 });
}

export function prefersStill() {
  return globalThis.matchMedia?.("(prefers-reduced-motion: reduce)").matches ?? false;
}
