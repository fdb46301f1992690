// Outlines of what is selected and of what a finding points at, above the plan. They share the
// geometries of the plan's own features, so they follow a drag without being told.
import { Feature, VectorLayer, VectorSource } from "./ol.js";
import { pointedStyle, selectedStyle } from "./styles/picked.js";

function createOutlines(map, style, zIndex) {
  const source = new VectorSource();
  map.addLayer(new VectorLayer({ source, style, zIndex }));
  return (features) => {
    source.clear(true);
    source.addFeatures(features.map((feature) => new Feature(feature.getGeometry())));
    source.changed();
  };
}

export function createPicked(map, findFeature) {
  const showSelected = createOutlines(map, selectedStyle, 400);
  const showPointed = createOutlines(map, pointedStyle, 405);
  let [selected, pointed] = [[], []];

  function found(ids) {
    return ids.map(findFeature).filter(Boolean);
  }

  function refresh() {
    if (selected.length) showSelected(found(selected));
    if (pointed.length) showPointed(found(pointed));
  }

  function select(ids) {
    selected = ids;
    showSelected(found(ids));
  }

  function point(ids) {
    pointed = ids;
    showPointed(found(ids));
  }

  return { select, point, refresh };
}
