// Mouse, pen and touch as one set of events. A second finger is the map's: what the first began is cancelled.
const SLOP_PX = { mouse: 3, pen: 5, touch: 9 };
const DOUBLE_MS = 350;
const LONG_MS = 550;

const idle = () => ({ id: null, from: null, moved: false, cancelled: false, timer: null });

// `emit(kind, event)` gets down, move, up, click, double, long, cancel; `clock` and `later` are time and timers.
export function createGestures({ emit, clock = () => Date.now(), later = setTimeout, never = clearTimeout }) {
  const fingers = new Set();
  let press = idle();
  let lastClick = { when: -Infinity, pixel: [0, 0] };

  function apart(a, b) {
    return Math.hypot(a[0] - b[0], a[1] - b[1]);
  }

  function down(event) {
    fingers.add(event.pointer);
    if (fingers.size > 1) {
      cancel(event);
      return;
    }
    press = { ...idle(), id: event.pointer, from: event };
    if (event.touch) press.timer = later(() => long(event), LONG_MS);
    emit("down", event);
  }

  function long(event) {
    press.timer = null;
    press.held = true;
    emit("long", event);
  }

  function cancel(event) {
    never(press.timer);
    if (press.id === null || press.cancelled) return;
    press.cancelled = true;
    emit("cancel", { ...event, from: { at: press.from.at, pixel: press.from.pixel } });
  }

  function move(event) {
    if (press.id === null) {
      if (!event.touch) emit("move", event);
      return;
    }
    if (press.id !== event.pointer || press.cancelled) return;
    const slop = SLOP_PX[event.kind] ?? SLOP_PX.mouse;
    if (!press.moved && apart(event.pixel, press.from.pixel) <= slop) return;
    press.moved = true;
    never(press.timer);
    emit("move", { ...event, pressed: true });
  }

  function up(event) {
    fingers.delete(event.pointer);
    if (press.id !== event.pointer) return;
    const { cancelled, moved, held } = press;
    never(press.timer);
    press = idle();
    if (cancelled) return;
    emit("up", { ...event, moved });
    if (!moved && !held) click(event);
  }

  function click(event) {
    const twice = clock() - lastClick.when < DOUBLE_MS && apart(event.pixel, lastClick.pixel) < 12;
    lastClick = twice ? { when: -Infinity, pixel: [0, 0] } : { when: clock(), pixel: event.pixel };
    emit(twice ? "double" : "click", event);
  }

  function lost(event) {
    fingers.delete(event.pointer);
    if (press.id !== event.pointer) return;
    cancel(event);
    press = idle();
  }

  return { down, move, up, lost, fingers: () => fingers.size };
}
