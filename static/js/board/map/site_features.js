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

// The photo under the pointer, if any.
export function photoAt(families, at, radius_m) {
  const box = [at[0] - radius_m, at[1] - radius_m, at[0] + radius_m, at[1] + radius_m];
  return families.photos.rest.getFeaturesInExtent(box)[0]?.entity ?? null;
}
