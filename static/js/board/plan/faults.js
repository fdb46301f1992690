// What is wrong with the shape of a document, so that the board can say where. Water and parts are the server's.

import { GROUPS, listOf } from "./groups.js";
import { find, nodeOf, pathOfEntity } from "./lookup.js";
import { pathLength } from "./paths.js";
import { SHORTEST_PIPE_M } from "./pipe_splitting.js";
import { REACH_OF_PLAN_M } from "./points.js";
import { ringArea, ringInside, selfCrossing, tidyRing } from "./rings.js";

/** @typedef {{entity: string, field: string, sentence: string}} Fault */

const judged = new WeakMap(); // an outline is judged once for as long as it stays the same

/** @param {object} doc @returns {Fault[]} */
export function faults(doc) {
  const checks = [repeatedIds, outlineFaults, pathFaults, placeFaults, supplyFaults, endFaults, namedFaults];
  return checks.flatMap((check) => check(doc));
}

function fault(entity, field, sentence) {
  return { entity: entity ?? "", field, sentence };
}

function repeatedIds(doc) {
  const counts = new Map();
  for (const group of GROUPS) for (const { id } of listOf(doc, group)) if (id) counts.set(id, (counts.get(id) ?? 0) + 1);
  const several = [...counts].filter(([, count]) => count > 1);
  return several.map(([id, count]) => fault(id, "id", `${count} things have the id ${id}; give each its own.`));
}

function outlineFaults(doc) {
  const found = [];
  for (const entity of [...listOf(doc, "areas"), ...listOf(doc, "surfaces")]) {
    const wrong = ringFault(entity.outline);
    if (wrong) found.push(fault(entity.id, "outline", wrong));
    (entity.holes ?? []).forEach((hole, number) => {
      const sentence = ringFault(hole) || (wrong ? "" : holeFault(hole, entity.outline));
      if (sentence) found.push(fault(entity.id, `holes[${number}]`, sentence));
    });
  }
  return found;
}

function ringFault(ring) {
  if (!judged.has(ring)) judged.set(ring, judgeRing(ring));
  return judged.get(ring);
}

function judgeRing(ring) {
  if (new Set(ring.map(String)).size < 3) return "An outline needs three different corners.";
  const at = selfCrossing(tidyRing(ring));
  if (at) return `This outline crosses or touches itself near (${at[0].toFixed(2)}, ${at[1].toFixed(2)}); move its corners.`;
  return ringArea(ring) > 1e-6 ? "" : "This outline encloses nothing.";
}

function holeFault(hole, outline) {
  return ringInside(hole, outline) ? "" : "This hole reaches outside the outline; move it inside.";
}

function pathFaults(doc) {
  const found = [];
  for (const entity of [...listOf(doc, "services"), ...listOf(doc, "sleeves")]) {
    if (pathLength(entity.path) < 0.001) found.push(fault(entity.id, "path", "A line needs two different points."));
  }
  for (const pipe of listOf(doc, "pipes")) {
    const path = pathOfEntity(doc, pipe);
    if (path && pipe.from !== pipe.to && pathLength(path) < SHORTEST_PIPE_M) {
      found.push(fault(pipe.id, "via", `This pipe is shorter than ${SHORTEST_PIPE_M} m; move its ends apart or join them.`));
    }
  }
  return found;
}

function placeFaults(doc) {
  const within = (point) => point.every((value) => Number.isFinite(value) && Math.abs(value) <= REACH_OF_PLAN_M);
  const points = (entity) => [entity.at, ...(entity.outline ?? entity.path ?? entity.via ?? [])].filter(Boolean);
  const far = GROUPS.flatMap((group) => listOf(doc, group)).filter((entity) => !points(entity).every(within));
  return far.map((entity) => fault(entity.id, "at", `This lies farther than ${REACH_OF_PLAN_M} m from the origin.`));
}

function supplyFaults(doc) {
  const nodes = listOf(doc, "nodes").filter((node) => node.kind === "supply");
  const extra = nodes.slice(1).map((node) => fault(node.id, "kind", `There is a supply already, ${nodes[0].id}; keep one.`));
  const missing = listOf(doc, "nodes").length && !nodes.length;
  return missing ? [fault("supply", "at", "There is no supply yet; place it where the pipes begin.")] : extra;
}

function endFaults(doc) {
  const found = [];
  for (const [group, refused, run] of [["pipes", "controller", "pipe"], ["cables", "supply", "cable"]]) {
    for (const entity of listOf(doc, group)) {
      for (const field of ["from", "to"]) {
        const node = nodeOf(doc, entity[field]);
        if (!node) found.push(fault(entity.id, field, `There is no node “${entity[field]}”.`));
        else if (node.kind === refused) found.push(fault(entity.id, field, `${node.id} is a ${refused}; no ${run} ends there.`));
      }
      if (entity.from === entity.to) found.push(fault(entity.id, "to", `This ${run} begins and ends at ${entity.to}.`));
    }
  }
  return found;
}

function namedFaults(doc) {
  const lost = listOf(doc, "nodes").filter((node) => (node.area ?? null) !== null && find(doc, node.area)?.group !== "areas");
  const found = lost.map((node) => fault(node.id, "area", `There is no area “${node.area}”.`));
  for (const one of listOf(doc, "cases")) {
    for (const zone of one.open) {
      const node = nodeOf(doc, zone);
      if (node?.kind === "valve" || node?.kind === "head") continue;
      found.push(fault(one.label, "open", `There is no zone “${zone}”; name a valve, or a head with its own.`));
    }
  }
  return found;
}
