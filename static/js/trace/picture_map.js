// The picture as a flat map of its own pixels: zoom, move, click, and drag a point.

import {
  DragPan, ImageLayer, ImageStatic, MouseWheelZoom, OlMap, PinchZoom, Projection, VectorLayer, VectorSource, View,
} from "../board/map/ol.js";
import { features } from "./paint.js";
import { nearestHandle, toPixel } from "./places.js";

const REACH_PX = { mouse: 10, pen: 14, touch: 22 };
// below this a finger has tapped, not dragged
const STILL_PX = 5;

/**
 * @param {HTMLElement} target
 * @param {{url: string, width: number, height: number}} picture
 * @param {{onClick: Function, onDrag: Function, handles: () => object[]}} on
 */
export function createPictureMap(target, picture, on) {
  const extent = [0, 0, picture.width, picture.height];
  const projection = new Projection({ code: "PICTURE:pixels", units: "pixels", extent, global: false });
  const image = new ImageLayer({ source: new ImageStatic({ url: picture.url, projection, imageExtent: extent }) });
  const source = new VectorSource();
  const view = new View({
    projection, extent: grown(extent), showFullExtent: true, minResolution: 0.05, constrainResolution: false,
    enableRotation: false,
  });
  // no zoom by a double click: two quick corners are two corners
  const interactions = [new DragPan(), new PinchZoom(), new MouseWheelZoom()];
  const map = new OlMap({ target, layers: [image, new VectorLayer({ source })], view, interactions });
  const whole = () => view.fit(extent, { size: map.getSize(), padding: [8, 8, 8, 8] });
  whole();
  map.on("click", (event) => on.onClick(toPixel(event.coordinate, picture), null));
  followPointer(target, map, picture, on);
  target.addEventListener("keydown", (event) => moveByKey(event, view));
  return {
    map,
    whole,
    draw: (state) => {
      source.clear(true);
      source.addFeatures(features(state, picture.height));
    },
  };
}

/** A press on a handle drags it, or is a click on it; the map never sees that press. */
function followPointer(target, map, picture, on) {
  let held = null;
  const placeOf = (event) => toPixel(map.getEventCoordinate(event), picture);
  const isOnMap = (event) => !event.target.closest(".ol-control");
  target.addEventListener("pointerdown", (event) => {
    if (!event.isPrimary || event.button !== 0 || !isOnMap(event)) return;
    const reach = (REACH_PX[event.pointerType] ?? REACH_PX.mouse) * map.getView().getResolution();
    const handle = nearestHandle(on.handles(), placeOf(event), reach);
    if (!handle) return;
    event.stopPropagation();
    held = { handle, x: event.clientX, y: event.clientY, moved: false };
    target.setPointerCapture(event.pointerId);
  }, { capture: true });
  target.addEventListener("pointermove", (event) => {
    if (!held || !event.isPrimary) return;
    event.stopPropagation();
    held.moved ||= Math.hypot(event.clientX - held.x, event.clientY - held.y) > STILL_PX;
    if (held.moved) on.onDrag(held.handle, placeOf(event));
  }, { capture: true });
  const end = (event) => {
    if (!held || !event.isPrimary) return;
    event.stopPropagation();
    const { handle, moved } = held;
    held = null;
    if (!moved && event.type === "pointerup") on.onClick(handle.at, handle);
  };
  target.addEventListener("pointerup", end, { capture: true });
  target.addEventListener("pointercancel", end, { capture: true });
}

/** Arrows move the picture a little, plus and minus zoom. */
function moveByKey(event, view) {
  const step = 60 * view.getResolution();
  const ways = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] };
  const way = ways[event.key];
  const zoom = { "+": 0.8, "-": 1.25 }[event.key];
  if (way) view.setCenter(view.getCenter().map((value, axis) => value + way[axis]));
  else if (zoom) view.setResolution(view.getResolution() * zoom);
  else return;
  event.preventDefault();
}

function grown([west, south, east, north]) {
  const air = 0.25 * Math.max(east - west, north - south);
  return [west - air, south - air, east + air, north + air];
}

