// The keyboard's cross on the plan: where Enter sets a point. It follows the pointer until an arrow key moves it.

import { handlesOf, find } from "../plan/lookup.js";
import { samePlace } from "../plan/geometry.js";
import { arrowStep } from "../shortcuts.js";
import { readingOrder } from "./reading_order.js";

export function createCross() {
  const cross = { at: [0, 0], byKeys: false };
  return {
    get at() { return cross.at; },
    get byKeys() { return cross.byKeys; },
    follow(at) { Object.assign(cross, { at, byKeys: false }); },
    jump(at) { Object.assign(cross, { at, byKeys: true }); },
    /** Moves by an arrow key; false for every other key. */
    moved(event) {
      const step = arrowStep(event);
      if (!step) return false;
      const at = cross.at.map((part, axis) => Math.round((part + step[axis]) * 1000) / 1000);
      Object.assign(cross, { at, byKeys: true });
      return true;
    },
  };
}

/** The corner or device after (or before) the cross in reading order, for Tab; null past either end. */
export function placeAfter(doc, at, forward) {
  const places = readingOrder(doc).flatMap((id) => handlesOf(doc, id)).map((handle) => ({ ...handle, entity: find(doc, handle.id).entity }));
  const here = places.map((place) => samePlace(place.at, at)).lastIndexOf(true);
  const there = places.map((place) => samePlace(place.at, at)).indexOf(true);
  if (here < 0) return (forward ? places[0] : places.at(-1)) ?? null;
  return (forward ? places[here + 1] : places[there - 1]) ?? null;
}
