// The colours of the printed plan (design/drawing/palette.py), so that board, page and paper agree.
// Nothing is told by colour alone: lines differ by dash or shape, zones by number, findings by outline.

export const INK = "#22303a";
export const FAINT_INK = "#56636c";
export const PAPER = "#ffffff";
export const MAIN = "#123c69";
export const LATERAL = "#2b6ca8";
export const CABLE = "#8a3f7d";
export const EARTH = "#dcc29a";
export const EARTH_DARK = "#7a5a2a";
export const ALERT = "#a3261b";
export const WARN = "#7a4b00";
export const NOTE = "#2c4a78";
export const EDGE = "#5f5a54";
export const NOTE_FILL = "#fff8dc";
export const NOTE_EDGE = "#8a6d00";
export const GRID = "#dfe3e6";

export const ZONE_COLOURS = ["#707ab3", "#ac7015", "#37a39a", "#5c1e78", "#952650", "#3e4909"];

export const AREA_EDGE = "#7d8b63";
export const AREA_FILLS = {
  turf: "#e6edd6",
  bed: "#f3e6d3",
  hedge: "#d5e0c8",
  vegetables: "#efe9cf",
  pots: "#f4ead9",
};
export const SURFACE_EDGE = "#88827b";
export const SURFACE_FILLS = {
  building: "#d6d3ce",
  paving: "#eeecea",
  water: "#d3e5ef",
  tree: "#c9d8bd",
  future_work: "#fbf6ea",
  keep_out: "#f7eceb",
  neighbour: "#f4f3f1",
  fence: "#88827b",
};
export const HATCH_INKS = {
  building: "#a8a29a",
  future_work: "#c4ab7c",
  keep_out: "#cf8d86",
  water: "#8fb4c9",
};
export const SERVICE_INKS = {
  gas: ["#8a6d00", "G"],
  electric: ["#b3261e", "E"],
  water: ["#1d5fa8", "W"],
  telecom: ["#b85c00", "T"],
  sewer: ["#33691e", "S"],
  drain: ["#4e6b3a", "D"],
  future_drain: ["#4e6b3a", "FD"],
};
// What is picked or pointed at; the plan page marks entities with the same ink.
export const PICKED = "#b0005a";

export function zoneColour(position) {
  return position < 0 ? FAINT_INK : ZONE_COLOURS[position % ZONE_COLOURS.length];
}
