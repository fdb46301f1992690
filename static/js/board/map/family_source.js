// The features of one family in two sources: those at rest, and those that are changing now.
// The map draws a source anew as a whole when one of its features changes; while a head is dragged
// only the few that follow it are drawn anew, however large the plan is.
import { VectorSource } from "./ol.js";

const REST_MS = 400;
// More than this at once (opening, undoing a large step) goes to rest directly.
const MANY = 200;

export function createFamilySource() {
  const rest = new VectorSource();
  const moving = new VectorSource();
  const inMotion = new Set();
  let timer = null;

  function settle() {
    timer = null;
    const features = [...inMotion];
    inMotion.clear();
    moving.clear(true);
    moving.changed();
    rest.addFeatures(features);
  }

  function settleSoon() {
    clearTimeout(timer);
    timer = setTimeout(settle, REST_MS);
  }

  function add(features) {
    if (features.length > MANY) {
      rest.addFeatures(features);
      return;
    }
    for (const feature of features) inMotion.add(feature);
    moving.addFeatures(features);
    if (inMotion.size) settleSoon();
  }

  function remove(features) {
    const many = features.length > MANY;
    for (const feature of features) {
      if (inMotion.delete(feature)) moving.removeFeature(feature);
      else if (!many) rest.removeFeature(feature);
    }
    if (many) rest.removeFeatures(features.filter((feature) => rest.hasFeature(feature)));
  }

  // Call before a feature's geometry or look changes.
  function wake(feature) {
    settleSoon();
    if (inMotion.has(feature)) return;
    rest.removeFeature(feature);
    inMotion.add(feature);
    moving.addFeature(feature);
  }

  return { rest, moving, add, remove, wake, settle, sources: [rest, moving] };
}
