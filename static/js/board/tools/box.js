// Selecting by a box, and one by one.

import { extentOf } from "../plan/lookup.js";
import { readingOrder } from "./reading_order.js";

/** The corners of the box between two points, from the south-west one. */
export function boxOf([x1, y1], [x2, y2]) {
  const [west, east, south, north] = [Math.min(x1, x2), Math.max(x1, x2), Math.min(y1, y2), Math.max(y1, y2)];
  return [[west, south], [east, south], [east, north], [west, north]];
}

/** The ids of what lies wholly inside a box. */
export function idsInside(doc, [[west, south], , [east, north]]) {
  return readingOrder(doc).filter((id) => {
    const extent = extentOf(doc, [id]);
    return extent && extent[0] >= west && extent[1] >= south && extent[2] <= east && extent[3] <= north;
  });
}

/** The selection with an id put in, or taken out where it was in. */
export const toggled = (selection, id) => (selection.includes(id) ? selection.filter((one) => one !== id) : [...selection, id]);
