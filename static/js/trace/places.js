// Places: pixels of the picture against the map's, whose second axis points up.

/** @typedef {[number, number]} XY */

/** @param {XY} pixel @param {number} height of the picture */
export function toMap([right, down], height) {
  return [right, height - down];
}

/** The pixel, kept inside the picture, to a tenth. @param {XY} at */
export function toPixel([x, y], { width, height }) {
  return [tenth(inside(x, width)), tenth(inside(height - y, height))];
}

/** A typed number as a place along one side of the picture; none where it is no number. */
export function typedPlace(text, most) {
  const value = Number(String(text).trim().replace(",", "."));
  return String(text).trim() === "" || !Number.isFinite(value) ? null : tenth(inside(value, most));
}

/** The handle nearest to a place, within a reach in pixels of the picture; later ones win a tie. */
export function nearestHandle(handles, [x, y], reach) {
  let found = null;
  let least = reach;
  for (const handle of handles) {
    const away = Math.hypot(handle.at[0] - x, handle.at[1] - y);
    if (away <= least) [found, least] = [handle, away];
  }
  return found;
}

function inside(value, most) {
  return Math.min(Math.max(value, 0), most);
}

function tenth(value) {
  return Math.round(value * 10) / 10;
}
