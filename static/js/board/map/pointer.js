// Listens to the map's pointers and hands normalised events to whoever asked.
import { createGestures } from "./gestures.js";

export function createPointer({ target, map, toMetres, isPanning }) {
  const listeners = new Set();
  let panningPress = false;

  function normalised(event) {
    const box = target.getBoundingClientRect();
    const pixel = [event.clientX - box.left, event.clientY - box.top];
    return {
      at: toMetres(pixel),
      pixel,
      shift: event.shiftKey,
      ctrl: event.ctrlKey || event.metaKey,
      alt: event.altKey,
      touch: event.pointerType === "touch",
      kind: event.pointerType || "mouse",
      pressed: false,
      pointer: event.pointerId,
    };
  }

  // With the hand, a press moves the map; clicks and hovering still reach the tools.
  function emit(kind, event) {
    if (kind === "down") panningPress = isPanning();
    if (panningPress && (["down", "up", "cancel"].includes(kind) || event.pressed)) return;
    for (const handlers of [...listeners]) call(handlers, kind, event);
  }

  // A tool without `cancel` is let go of where the press began, so that nothing was dragged.
  function call(handlers, kind, event) {
    if (kind === "cancel" && !handlers.cancel) handlers.up?.({ ...event, ...event.from, moved: false, cancelled: true });
    else handlers[kind]?.(event);
  }

  const gestures = createGestures({ emit });

  function isOurs(event) {
    return event.button === 0 && !event.target.closest(".ol-control, button, a, input");
  }

  // Before the map's own listener, so that a tool may still give the press to the map.
  target.addEventListener("pointerdown", (event) => {
    if (isOurs(event)) gestures.down(normalised(event));
  }, { capture: true });
  map.getViewport().addEventListener("pointermove", (event) => {
    if (event.buttons === 0 || event.pointerType === "touch") gestures.move(normalised(event));
  });
  window.addEventListener("pointermove", (event) => {
    if (event.buttons !== 0 && event.pointerType !== "touch") gestures.move(normalised(event));
  });
  window.addEventListener("pointerup", (event) => gestures.up(normalised(event)));
  window.addEventListener("pointercancel", (event) => gestures.lost(normalised(event)));
  target.addEventListener("contextmenu", (event) => event.preventDefault());

  function on(handlers) {
    listeners.add(handlers);
    return () => listeners.delete(handlers);
  }

  return { on, fingers: gestures.fingers };
}
