// How the map itself is moved: wheel, pinch, two fingers, the middle button, or the hand tool.
import { DragPan, MouseWheelZoom, PinchZoom } from "./ol.js";
import { prefersStill, zoomBy } from "./view.js";

const STEP_PX = 90;
const ZOOM_STEP = 1.4;

function movesMap(event, isPanning) {
  const { originalEvent: original, activePointers } = event;
  if (original.target.closest?.("button, a, input")) return false;
  return isPanning() || original.button === 1 || (activePointers?.length ?? 0) > 1;
}

export function moveInteractions(isPanning) {
  return [
    new DragPan({ condition: (event) => movesMap(event, isPanning) }),
    new PinchZoom(),
    new MouseWheelZoom(),
  ];
}

function panBy(view, [dx, dy]) {
  const [x, y] = view.getCenter();
  const resolution = view.getResolution();
  view.animate({ center: [x + dx * resolution, y + dy * resolution], duration: prefersStill() ? 0 : 100 });
}

const ARROWS = {
  ArrowLeft: [-STEP_PX, 0],
  ArrowRight: [STEP_PX, 0],
  ArrowUp: [0, STEP_PX],
  ArrowDown: [0, -STEP_PX],
};

// Arrows move, plus and minus zoom, 0 shows all, while the map has the focus and no tool took the key.
export function createKeys({ target, view, zoomAll }) {
  window.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.target !== target || event.ctrlKey || event.metaKey || event.altKey) return;
    if (ARROWS[event.key]) panBy(view, ARROWS[event.key]);
    else if (event.key === "+" || event.key === "=") zoomBy(view, ZOOM_STEP);
    else if (event.key === "-") zoomBy(view, 1 / ZOOM_STEP);
    else if (event.key === "0") zoomAll();
    else return;
    event.preventDefault();
  });
}
