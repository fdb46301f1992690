// The lengths that this page writes into its own fields, and what it reads back to show the marker.
// What people type in other ways is read by the server alone.

const METRES = { m: 1, ft: 0.3048, cm: 0.01, in: 0.0254 };

export function writeLength(metres, units) {
  return units === "us" ? `${(metres / METRES.ft).toFixed(1)} ft` : `${metres.toFixed(2)} m`;
}

// Metres, or null where the text is no plain number with or without a plain unit.
export function readLength(text, units) {
  const found = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*(m|ft|cm|in)?\s*$/.exec(text);
  if (!found) return null;
  return Number(found[1].replace(",", ".")) * METRES[found[2] || (units === "us" ? "ft" : "m")];
}
