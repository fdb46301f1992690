// Lengths in the site's own units, for the scale and labels that the browser writes itself.

// International foot, exact: 0.3048 m (NIST SP 811, appendix B.8).
const METRES_PER_FOOT = 0.3048;

export function metresPerUnit(units) {
  return units === "us" ? METRES_PER_FOOT : 1;
}

export function unitWord(units) {
  return units === "us" ? "ft" : "m";
}

export function lengthWords(metres, units, digits = 1) {
  return `${(metres / metresPerUnit(units)).toFixed(digits)} ${unitWord(units)}`;
}

// A height with its sign, as levels are written on site.
export function levelWords(metres, units) {
  const value = (metres / metresPerUnit(units)).toFixed(2);
  return `${metres > 0 ? "+" : ""}${value}`;
}

// The largest of 1, 2, 5 times a power of ten that is not above `most`.
export function roundBelow(most) {
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((factor) => factor * power <= most * (1 + 1e-9));
  return step * power;
}
