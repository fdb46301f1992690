import assert from "node:assert/strict";
import { test } from "node:test";

import { lengthWords, levelWords, metresPerUnit, roundBelow } from "../../../../static/js/board/map/site_units.js";

test("a foot is 0.3048 m", () => {
  // NIST SP 811 (2008), appendix B.8: foot = 3.048 E-01 m, exact.
  assert.equal(metresPerUnit("us"), 0.3048);
  assert.equal(lengthWords(3.048, "us"), "10.0 ft");
  assert.equal(lengthWords(3.048, "metric"), "3.0 m");
});

test("levels carry their sign", () => {
  assert.equal(levelWords(0.4, "metric"), "+0.40");
  assert.equal(levelWords(-0.3048, "us"), "-1.00");
  assert.equal(levelWords(0, "metric"), "0.00");
});

test("a scale is 1, 2 or 5 times a power of ten", () => {
  const found = [0.0099, 0.01, 0.3, 1, 1.99, 4.9, 5, 73, 100].map(roundBelow);
  const wanted = [0.005, 0.01, 0.2, 1, 1, 2, 5, 50, 100];
  found.forEach((value, index) => assert.ok(Math.abs(value - wanted[index]) < 1e-9, `${value} is not ${wanted[index]}`));
});
