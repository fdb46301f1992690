// The throw of each head as a feature of its own, so that it can be hidden and never catches a click.
import { sectorPoints } from "../plan/arcs.js";
import { Feature, Polygon } from "./ol.js";

function outline(node, look, looks) {
  if (look.arc === "drip") return null;
  const pattern = looks.pattern(node);
  if (pattern?.length > 2) return pattern;
  const reach_m = looks.reach_m(node);
  if (!(reach_m > 0)) return null;
  const whole = look.arc === "full" || look.arc === "by_bearing";
  return sectorPoints(node.at, reach_m, node.from_deg ?? 0, whole ? 360 : node.sweep_deg ?? 360);
}

// A throw that has not changed keeps its geometry.
function stampOf(node, ring, look) {
  return `${look.zone} ${node.at} ${ring.length} ${ring[1]} ${ring.at(-1)}`;
}

export function createThrows(source, looks) {
  const shown = new Map(); // head id -> {feature, stamp}
  let added = [];

  function drop(id) {
    const old = shown.get(id);
    if (!old) return;
    source.remove([old.feature]);
    shown.delete(id);
  }

  function update({ entity: node }) {
    const look = looks.of("nodes", node);
    const ring = node.kind === "head" ? outline(node, look, looks) : null;
    if (!ring) {
      drop(node.id);
      return;
    }
    const stamp = stampOf(node, ring, look);
    const old = shown.get(node.id);
    if (old?.stamp === stamp) return;
    place(node, look, ring, stamp, old);
  }

  function place(node, look, ring, stamp, old) {
    const geometry = new Polygon([[...ring, ring[0]]]);
    const feature = old?.feature ?? new Feature();
    if (old) source.wake(feature);
    Object.assign(feature, { key: node.id, group: "arcs", entity: node, look });
    feature.setGeometry(geometry);
    shown.set(node.id, { feature, stamp });
    if (!old) added.push(feature);
  }

  function flush() {
    if (added.length) source.add(added);
    added = [];
  }

  return { update, drop, flush };
}
