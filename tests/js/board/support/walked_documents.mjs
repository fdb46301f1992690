// Prints documents after random edits, with the faults that the board finds in them, for the check in Python.

import { faults } from "../../../../static/js/board/plan/faults.js";
import { demoPlan } from "./plans.js";
import { walker } from "./walk.js";

const NAMES = ["plain-rectangle", "quince-house", "ferry-lane"];
const found = [];
for (let seed = 100; seed < 130; seed += 1) {
  const edited = walker(seed);
  let doc = demoPlan(NAMES[seed % NAMES.length]);
  for (let i = 1; i <= 200; i += 1) {
    ({ doc } = edited(doc));
    if (i % 40 === 0) found.push({ document: doc, faults: faults(doc) });
  }
}
process.stdout.write(JSON.stringify(found));
