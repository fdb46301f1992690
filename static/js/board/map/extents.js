// How far the plan and its parts reach, in site metres.

function joined(a, b) {
  if (!a) return [...b];
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
}

export function extentOfFeatures(features) {
  let extent = null;
  for (const feature of features) extent = joined(extent, feature.getGeometry().getExtent());
  return extent;
}

export function extentOfFamilies(families) {
  const names = Object.keys(families).filter((name) => !["arcs", "findings", "trench", "weak"].includes(name));
  return extentOfFeatures(names.flatMap((name) => families[name].sources.flatMap((source) => source.getFeatures())));
}
