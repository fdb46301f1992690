// Two pipes between the same nodes along the same way are one drawn twice.

import { pathOfEntity } from "./lookup.js";
import { samePlace } from "./points.js";

/** @param {object} doc @param {object} pipe @param {object} other each with from, to and via @returns {boolean} */
export function liesTwice(doc, pipe, other) {
  const straight = pipe.from === other.from && pipe.to === other.to;
  if (!straight && !(pipe.from === other.to && pipe.to === other.from)) return false;
  const [one, two] = [pathOfEntity(doc, pipe), pathOfEntity(doc, other)];
  if (!one || !two || one.length !== two.length) return false;
  const along = straight ? two : [...two].reverse();
  return one.every((place, i) => samePlace(place, along[i]));
}
