// The map of the board behind one small facade; tools and panels talk to nothing else of it.
//
//   board.map, board.toMetres(pixel), board.toPixel(at), board.placeOf(id), board.metresPerPixel()
//   board.zoomTo(ids), board.zoomAll(), board.panning(on), board.focus()
//   board.hit(pixel, {tolerance_px}) -> [{id, handle, distance_px, group}], nearest to hand first
//   board.onPointer({down, move, up, click, double, long, cancel}) -> off()
//     events: {at, pixel, shift, ctrl, alt, touch, kind, pressed}; `up` also has `moved`. Where a second
//     finger took over, `cancel` comes instead of `up`, and what the press began is to be dropped. The
//     second of two quick clicks is a `double` and no `click`. `move` comes pressed or not; a press
//     that never left its spot brings no pressed `move`.
//   board.preview(document | null): shows a document that is not in the store, as while dragging
//   board.sketch.show(items), board.sketch.clear(), board.showHandles(handles)
//   board.setLayer(name, shown), board.layers, board.onLayers(fn(name, shown))
//   board.setReport(report), board.setWetting(answer), board.emphasise(ids)
//   board.photosAt(at), board.weakAt(at), board.showPlace(at)
import { everyId } from "../plan/lookup.js";
import { extentOfFamilies, extentOfFeatures } from "./extents.js";
import { createFeatures } from "./features.js";
import { createHit } from "./hit.js";
import { createKeys, moveInteractions } from "./interactions.js";
import { createLayers } from "./layers.js";
import { OlMap } from "./ol.js";
import { createPicked } from "./picked.js";
import { createPointer } from "./pointer.js";
import { createReportFeatures } from "./report_features.js";
import { createScaleLine } from "./scale_line.js";
import { photosAt, showSite, weakAt } from "./site_features.js";
import { createHandles, createSketch } from "./sketch.js";
import { createView, extentAbout, fitExtent, fitUntilTouched } from "./view.js";
import { showWetting } from "./wetting.js";
import { createZoomButtons } from "./zoom_buttons.js";

const TOLERANCE_PX = 10;
const PHOTO_PX = 12;

export function createBoardMap({ target, store, data }) {
  const units = data.site?.units ?? "metric";
  let hand = false;
  const isPanning = () => hand;
  const view = createView();
  const map = new OlMap({ target, view, controls: [], interactions: moveInteractions(isPanning), layers: [] });
  const layers = createLayers(map, units, everyId(store.document).size);
  const features = createFeatures(layers.families, data.parts ?? {});
  const picked = createPicked(map, features.find);
  const found = createReportFeatures(layers.families, features.find);
  const handles = createHandles(map);
  const sketch = createSketch(map);
  const hitAt = createHit({ ...layers, handles: handles.list });
  const toMetres = (pixel) => map.getCoordinateFromPixel(pixel) ?? unplaced(pixel);
  const pointer = createPointer({ target, map, toMetres, isPanning });
  let report = null;

  // Before the first frame the map cannot tell; its view can.
  function unplaced([px, py]) {
    const [[x, y], [wide, tall], resolution] = [view.getCenter(), map.getSize() ?? [0, 0], view.getResolution()];
    return [x + (px - wide / 2) * resolution, y - (py - tall / 2) * resolution];
  }

  function show(document) {
    features.sync(document);
    picked.refresh();
  }

  function zoomAll({ slowly = true } = {}) {
    const empty = extentAbout(store.document.supply?.at ?? [0, 0]);
    fitExtent(map, extentOfFamilies(layers.families) ?? empty, { slowly });
  }

  function zoomTo(ids) {
    const extent = extentOfFeatures(ids.map(features.find).filter(Boolean));
    if (extent) fitExtent(map, extent, { slowly: true });
  }

  function setReport(next) {
    report = next;
    features.setReport(next);
    found.show(next);
    picked.refresh();
  }

  map.addControl(createScaleLine(units));
  map.addControl(createZoomButtons(view, () => zoomAll()));
  createKeys({ target, view, zoomAll });
  showSite(layers.families, data);
  show(store.document);
  if (data.report) setReport(data.report);
  fitUntilTouched(map, () => zoomAll({ slowly: false }));
  map.once("rendercomplete", () => performance.mark("plan drawn"));
  store.on("document", () => {
    show(store.document);
    found.placeBadges(report);
  });
  store.on("selection", () => picked.select(store.selection));

  return {
    map,
    toMetres,
    placeOf(id) {
      const [west, south, east, north] = features.find(id).getGeometry().getExtent();
      return [(west + east) / 2, (south + north) / 2];
    },
    toPixel: (at) => map.getPixelFromCoordinate(at),
    metresPerPixel: () => view.getResolution(),
    zoomAll: () => zoomAll(),
    zoomTo,
    hit: (pixel, { tolerance_px = TOLERANCE_PX } = {}) => hitAt(toMetres(pixel), tolerance_px, view.getResolution()),
    sketch,
    showHandles: handles.show,
    setLayer: layers.set,
    get layers() {
      return layers.list();
    },
    onLayers: layers.onChange,
    setReport,
    setWetting: (answer) => showWetting(layers.wetting, answer),
    emphasise: (ids) => picked.point(ids ?? []),
    preview: (document) => show(document ?? store.document),
    onPointer: pointer.on,
    panning(on) {
      hand = on;
      target.classList.toggle("is-hand", on);
    },
    photosAt: (at) => (layers.isShown("photos") ? photosAt(layers.families, at, PHOTO_PX * view.getResolution()) : []),
    weakAt: (at) => (layers.isShown("weak") ? weakAt(layers.families, at, PHOTO_PX * view.getResolution()) : null),
    showPlace: ([x, y]) => fitExtent(map, [x, y, x, y], { slowly: true }),
    focus: () => target.focus({ preventScroll: true }),
  };
}
