// The tools' own layer: lines being drawn, guides, and the handles of what is selected.
import { Feature, LineString, Point, Polygon, VectorLayer, VectorSource } from "./ol.js";
import { handleStyle } from "./styles/picked.js";
import { sketchStyle } from "./styles/sketch.js";

function middle([x0, y0], [x1, y1]) {
  return [(x0 + x1) / 2, (y0 + y1) / 2];
}

function geometryOf(kind, points) {
  if (kind === "dot" || points.length === 1) return new Point(points[0]);
  const closes = (kind === "ring" || kind === "arc") && points.length > 2;
  return closes ? new Polygon([[...points, points[0]]]) : new LineString(points);
}

function sketched({ points, kind, text }) {
  const feature = new Feature(geometryOf(kind, points));
  const line = kind === "line" || kind === "guide";
  feature.kind = points.length === 1 ? "dot" : kind;
  feature.text = text ?? "";
  feature.wordsAt = new Point(line && points.length > 1 ? middle(points.at(-2), points.at(-1)) : points.at(-1));
  return feature;
}

export function createSketch(map) {
  const source = new VectorSource();
  const layer = new VectorLayer({ source, style: sketchStyle, zIndex: 420, updateWhileInteracting: true });
  map.addLayer(layer);
  return {
    show(items) {
      source.clear(true);
      source.addFeatures(items.filter(({ points }) => points?.length).map(sketched));
      source.changed();
    },
    clear() {
      source.clear();
    },
  };
}

export function createHandles(map) {
  const source = new VectorSource();
  map.addLayer(new VectorLayer({ source, style: handleStyle, zIndex: 430 }));
  let shown = [];
  return {
    show(handles) {
      shown = handles ?? [];
      source.clear(true);
      source.addFeatures(shown.map((handle) => Object.assign(new Feature(new Point(handle.at)), { entity: handle })));
      source.changed();
    },
    list: () => shown,
  };
}
