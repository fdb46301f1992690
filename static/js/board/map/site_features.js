// What the survey left on the site: photos with the way they looked, and points that were measured weakly.
import { Feature, Point } from "./ol.js";

function placed(entities, group) {
  return entities
    .filter(({ at }) => Array.isArray(at))
    .map((entity) => Object.assign(new Feature(new Point(entity.at)), { key: entity.id, group, entity, look: { stamp: "" } }));
}

export function showSite(families, { photos = [], weak_points: weak = [] }) {
  families.photos.rest.addFeatures(placed(photos, "photos"));
  families.weak.rest.addFeatures(placed(weak, "weak"));
}

function inBox(source, [x, y], half) {
  return source.getFeaturesInExtent([x - half, y - half, x + half, y + half]).map(({ entity }) => entity);
}

/** All photos about a place: several may have been taken from one spot. */
export function photosAt(families, at, radius_m) {
  return inBox(families.photos.rest, at, radius_m);
}

/** The unsure point of the measured ground about a place, or null. */
export function weakAt(families, at, radius_m) {
  return inBox(families.weak.rest, at, radius_m)[0] ?? null;
}
