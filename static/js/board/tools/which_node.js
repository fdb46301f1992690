// Which of several nodes at one place is meant: two valves may share a box, and a head a junction's spot.

import { distance } from "../plan/geometry.js";

const SAME_PLACE_M = 0.02;
const DEVICES = new Set(["controller", "valve", "head"]);

function countEnds(links, id) {
  return (links ?? []).filter((link) => link.from === id || link.to === id).length;
}

/**
 * The node meant at `at`: for a pipe the one with fewest pipes, never a controller; for a cable a device with
 * fewest cables. `not` holds ids that the line has touched already. Null where nothing fits.
 */
export function nodeMeant(doc, at, { wants = "pipe", not = [] } = {}) {
  const layout = doc.layout ?? {};
  const here = (layout.nodes ?? []).filter((node) => distance(node.at, at) <= SAME_PLACE_M);
  const fits = wants === "cable" ? (node) => DEVICES.has(node.kind) : (node) => node.kind !== "controller";
  const links = wants === "cable" ? layout.cables : layout.pipes;
  const rank = (node) => countEnds(links, node.id) - (wants === "cable" && node.kind === "controller" ? 100 : 0);
  const free = here.filter((node) => fits(node) && !not.includes(node.id));
  return free.sort((one, other) => rank(one) - rank(other))[0] ?? null;
}
