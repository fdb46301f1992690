// How long a snap takes among 2,000 things: node tests/js/board/bench_snap.mjs

import { moveAll } from "../../../static/js/board/plan/edits.js";
import { snap } from "../../../static/js/board/plan/snapping.js";
import { seeded } from "./support/plans.js";

const random = seeded(7);
const place = () => [random() * 120, random() * 80];
const COLUMNS = 40;

function largePlan() {
  const nodes = Array.from({ length: 800 }, (_, i) => ({ id: `H${i}`, kind: "head", part: "x", at: [(i % COLUMNS) * 3, Math.floor(i / COLUMNS) * 4] }));
  const pipes = nodes.slice(1).map((node, i) => ({ id: `P${i}`, from: nodes[i].id, to: node.id, part: "x" }));
  const box = ([x, y]) => [[x, y], [x + 5, y], [x + 5, y + 4], [x, y + 4]];
  const areas = Array.from({ length: 300 }, (_, i) => ({ id: `A${i}`, outline: box(place()) }));
  const services = Array.from({ length: 101 }, (_, i) => ({ id: `U${i}`, kind: "gas", path: [place(), place(), place()] }));
  return { format: "plan/1", ground: { areas, services }, supply: { at: [0, 0] }, layout: { nodes, pipes } };
}

function percentiles(name, times) {
  times.sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(3);
  console.log(`${name}: median ${at(0.5)} ms, 99 of 100 under ${at(0.99)} ms, worst ${at(1)} ms`);
}

function timed(count, run) {
  return Array.from({ length: count }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
}

let doc = largePlan();
const first = performance.now();
snap(doc, [10, 10], { radius_m: 0.3 });
console.log(`first snap, which builds the index: ${(performance.now() - first).toFixed(1)} ms`);

const drawing = () => snap(doc, place(), { radius_m: 0.3, from: [9, 12], previous: [6, 12] });
timed(300, drawing);
percentiles("snap while drawing, 0.3 m", timed(5000, drawing));
percentiles("snap from far out, 3 m", timed(2000, () => snap(doc, place(), { radius_m: 3, from: [9, 12], previous: [6, 12] })));

const dragging = () => {
  doc = moveAll(doc, ["H410"], 0.01, 0).doc;
  snap(doc, place(), { radius_m: 0.3, avoid: ["H410"] });
};
timed(100, dragging);
percentiles("move a head and snap in the new document", timed(1000, dragging));
