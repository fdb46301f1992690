// What the check adds to the map beside the document: trenches, and a badge where it found something.
import { Feature, LineString, Point } from "./ol.js";

const WORST = ["stop", "warn", "note"];

function trenchFeature(stretch, index) {
  const feature = new Feature(new LineString(stretch.path));
  return Object.assign(feature, { key: `trench-${index}`, group: "trench", entity: stretch, look: { stamp: "" } });
}

// Where a badge stands: on a point, half-way along a line, inside an area.
function spotOf(feature) {
  const geometry = feature.getGeometry();
  if (geometry.getType() === "Point") return geometry.getCoordinates();
  if (geometry.getType() === "LineString") return geometry.getCoordinateAt(0.5);
  return geometry.getInteriorPoint().getCoordinates().slice(0, 2);
}

export function badgesFor(findings, findFeature) {
  const badges = new Map();
  for (const finding of findings) {
    const id = (finding.where ?? []).find((each) => findFeature(each));
    if (!id) continue;
    const badge = badges.get(id) ?? { id, severity: "note", count: 0 };
    if (WORST.indexOf(finding.severity) < WORST.indexOf(badge.severity)) badge.severity = finding.severity;
    badges.set(id, { ...badge, count: badge.count + 1 });
  }
  return [...badges.values()];
}

export function createReportFeatures(families, findFeature) {
  function replace(family, features) {
    const { rest } = families[family];
    rest.clear(true);
    rest.addFeatures(features);
    rest.changed();
  }

  function show(report) {
    const stretches = (report?.trench ?? []).filter(({ path }) => path?.length > 1);
    replace("trench", stretches.map(trenchFeature));
    placeBadges(report);
  }

  function placeBadges(report) {
    const badges = badgesFor(report?.findings ?? [], findFeature);
    replace("findings", badges.map((badge) => {
      const feature = new Feature(new Point(spotOf(findFeature(badge.id))));
      return Object.assign(feature, { key: badge.id, group: "findings", entity: badge, look: { stamp: "" } });
    }));
  }

  return { show, placeBadges };
}
