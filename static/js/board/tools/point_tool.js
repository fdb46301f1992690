// Placing one thing with each click: heads, valves, marks, levels. A tool says what is placed.

import { samePlace } from "../plan/geometry.js";
import { placeAfter } from "./cross.js";
import { pointsTyped } from "./drawn_points.js";
import { snapHere, snapWord } from "./snap_here.js";
import { opensTyped } from "./typed_figures.js";
import { placeWords } from "./wording.js";

/** spec: {name, label, key, group, help, place(at, found), ghost?(at), options?()}. */
export function pointTool(context, spec) {
  const { board, cross, say } = context;
  const state = { here: null, last: null, off: null };

  const aim = (event) => snapHere(context, event, { from: state.last });
  const ghost = (at) => spec.ghost?.(at) ?? [];

  function redraw() {
    const found = state.here;
    if (!found) return board.sketch.clear();
    const guide = found.guide ? [{ points: found.guide, kind: "guide" }] : [];
    return board.sketch.show([...guide, ...ghost(found.at), { points: [found.at], kind: "dot", text: snapWord(found) }]);
  }

  function place(found) {
    if (spec.place(found.at, found) === null) return;
    state.last = found.at;
    cross.follow(found.at);
    redraw();
  }

  function take(figures) {
    const typed = pointsTyped(figures, { from: state.last, towards: state.here?.at ?? null });
    if (typed.refused) return typed.refused;
    if (typed.box || !typed.points.length) return 'Type a place: "3; 4", or how far from the last one: 6 @ 90.';
    for (const at of typed.points) place(aim({ at, cross: true, shift: false }));
    return null;
  }

  const typeFigures = (key = "") => context.typed.open(key, { near: state.here?.at ?? cross.at, take });

  function crossMoved() {
    state.here = aim({ at: cross.at, cross: true });
    say(placeWords(cross.at, context.data.site.units));
    redraw();
    return true;
  }

  function jump(event) {
    const next = placeAfter(context.store.document, cross.at, !event.shiftKey);
    if (!next) return false;
    cross.jump(next.at);
    return crossMoved();
  }

  function onKey(event) {
    if (cross.moved(event)) return crossMoved();
    if (event.key === "Tab") return jump(event);
    if (event.key === "Enter" || event.key === " ") return place(aim({ at: cross.at, cross: true, shift: event.shiftKey })), true;
    if (event.key === "Escape") return context.leave(), true;
    if (!opensTyped(event.key) || event.ctrlKey || event.metaKey || event.altKey) return false;
    typeFigures(event.key);
    return true;
  }

  const follow = (event) => {
    state.here = aim(event);
    cross.follow(state.here.at);
    redraw();
  };

  const pointer = {
    move: follow,
    up(event) { if (event.moved && !event.cancelled) pointer.click(event); },
    long(event) { pointer.click(event); },
    // The second of two quick clicks on one spot places nothing: the first did.
    double(event) { if (!state.last || !samePlace(aim(event).at, state.last, 0.02)) pointer.click(event); },
    click(event) {
      follow(event);
      place(state.here);
    },
  };

  return {
    ...spec,
    onKey,
    typeFigures,
    enable() {
      board.panning(false);
      Object.assign(state, { here: null, last: null, off: board.onPointer(pointer) });
    },
    disable() {
      state.off?.();
      board.sketch.clear();
    },
  };
}
