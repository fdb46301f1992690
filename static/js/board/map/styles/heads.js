// A disc in the zone's colour with two strokes for its arc; drip starts in a square; a head that
// carries its own valve sits in the valve's diamond.
import { diamond, disc, ring, square, stroke } from "./brush.js";
import { FAINT_INK, MAIN, PAPER, zoneColour } from "./palette.js";

const ARC_TICK_PX = 11;

function towards(bearing_deg, length) {
  const angle = (bearing_deg * Math.PI) / 180;
  return [length * Math.sin(angle), -length * Math.cos(angle)];
}

function arcTicks(context, { from_deg = 0, sweep_deg = 360 }, color) {
  if (sweep_deg >= 360) return;
  for (const bearing of [from_deg, from_deg + sweep_deg]) {
    stroke(context, [[0, 0], towards(bearing, ARC_TICK_PX)], { color, width: 1.5 });
  }
}

// `look` is {zone, arc, own_valve}; zone -1 while no valve opens it.
export function drawHead(context, { entity, look }) {
  const fill = look.zone < 0 ? PAPER : zoneColour(look.zone);
  const edge = look.zone < 0 ? FAINT_INK : PAPER;
  if (look.arc === "drip") return ring(context, square(4.4), { fill, stroke: edge, width: 1.2 });
  if (look.arc === "fixed") arcTicks(context, entity, zoneColour(look.zone));
  if (look.own_valve) ring(context, diamond(8.5), { fill: PAPER, stroke: MAIN, width: 1.6 });
  disc(context, 4.8, { fill, stroke: edge, width: 1.2 });
}
