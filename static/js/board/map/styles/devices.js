// Supply, valve, controller and junction, as the printed plan has them.
import { brushStyle, diamond, disc, ring, square, stroke } from "./brush.js";
import { drawHead } from "./heads.js";
import { CABLE, MAIN, PAPER } from "./palette.js";

function drawSupply(context) {
  const size = 9;
  const house = [[-size, 0.8 * size], [-size, -0.1 * size], [0, -size], [size, -0.1 * size], [size, 0.8 * size]];
  ring(context, house, { fill: MAIN, stroke: PAPER, width: 1.4 });
}

function drawValve(context) {
  ring(context, diamond(7.5), { fill: PAPER, stroke: MAIN, width: 1.8 });
  disc(context, 1.9, { fill: MAIN });
}

function drawController(context) {
  const half = 8;
  ring(context, square(half), { fill: PAPER, stroke: CABLE, width: 1.8 });
  for (const y of [-0.45, 0, 0.45]) {
    stroke(context, [[-half * 0.55, y * half], [half * 0.55, y * half]], { color: CABLE, width: 1.6 });
  }
}

function drawJunction(context) {
  disc(context, 2.4, { fill: MAIN, stroke: PAPER, width: 0.8 });
}

const STYLES = {
  junction: brushStyle(drawJunction, { zIndex: 0 }),
  head: brushStyle(drawHead, { zIndex: 1 }),
  valve: brushStyle(drawValve, { zIndex: 2 }),
  controller: brushStyle(drawController, { zIndex: 3 }),
  supply: brushStyle(drawSupply, { zIndex: 4 }),
};

export function deviceStyle(feature) {
  return STYLES[feature.entity.kind ?? "supply"] ?? STYLES.junction;
}
