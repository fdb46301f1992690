// Documents that tests edit. They are frozen to the bottom: an edit that writes into one throws.

import { readFileSync } from "node:fs";

const frozen = new WeakSet();

/** @template T @param {T} value @returns {T} */
export function deepFrozen(value) {
  if (typeof value !== "object" || value === null || frozen.has(value)) return value;
  frozen.add(value);
  Object.values(value).forEach(deepFrozen);
  return Object.freeze(value);
}

export function demoPlan(name) {
  const file = new URL(`../../../../demo/plans/${name}.json`, import.meta.url);
  return deepFrozen(JSON.parse(readFileSync(file, "utf-8")));
}

export function emptyPlan() {
  return deepFrozen({ format: "plan/1", ground: {}, supply: { at: [0, 0], static_kpa: 400 }, layout: {} });
}

/** A supply, a valve and a row of three heads, 4 m apart, on one lateral along y = 0. */
export function rowPlan() {
  const head = (id, x) => ({ id, kind: "head", at: [x, 0], part: "spray-4", from_deg: 0, sweep_deg: 180, area: "A1" });
  return deepFrozen({
    format: "plan/1",
    ground: { areas: [{ id: "A1", outline: [[2, 0], [16, 0], [16, 8], [2, 8]] }] },
    supply: { at: [-4, 0], static_kpa: 400 },
    layout: {
      nodes: [
        { id: "S1", kind: "supply", at: [-4, 0] },
        { id: "V1", kind: "valve", at: [0, 0], part: "valve-25" },
        head("H1", 4), head("H2", 8), head("H3", 12),
        { id: "C1", kind: "controller", at: [-4, 1], part: "controller-4" },
      ],
      pipes: [
        { id: "P1", from: "S1", to: "V1", part: "pe-32" },
        { id: "P2", from: "V1", to: "H1", part: "pe-25" },
        { id: "P3", from: "H1", to: "H2", part: "pe-25" },
        { id: "P4", from: "H2", to: "H3", part: "pe-25" },
      ],
      cables: [{ id: "K1", from: "C1", to: "V1", part: "cable-5" }],
      cases: [{ label: "Front", open: ["V1"] }],
    },
  });
}

/** A generator of numbers from 0 to 1 that gives the same ones for the same seed. */
export function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
