// Drawing point by point: outlines, buried lines, pipes, sleeves, cuts. A tool says what becomes of the points.

import { samePlace } from "../plan/geometry.js";
import { alongBearing, pointsTyped, withoutRepeats } from "./drawn_points.js";
import { placeAfter } from "./cross.js";
import { lineSketch } from "./line_sketch.js";
import { snapHere } from "./snap_here.js";
import { opensTyped } from "./typed_figures.js";
import { nodeMeant } from "./which_node.js";
import { nameOf, placeWords } from "./wording.js";

/**
 * spec: {name, label, key, group, help, closed, least, boxes, wants, endsAt(point), finish(points), options()}.
 * `finish` gives false where it was refused; the points then stay. Points are {at, node}; node null passes by.
 */
export function lineTool(context, spec) {
  const { store, board, cross, strip, say } = context;
  const line = { points: [], here: null, bearing_deg: null, press: null, ended: null, off: null };

  const last = () => line.points.at(-1) ?? null;
  const redraw = () => {
    board.sketch.show(lineSketch(line, spec, context));
    strip.drawing(line.points.length > 0);
  };

  function aim(event) {
    const [from, previous] = [last()?.at ?? null, line.points.at(-2)?.at ?? null];
    const opening = spec.closed && line.points.length >= 3 ? [line.points[0].at, line.points[1].at] : null;
    const found = snapHere(context, event, { from, previous, opening });
    const kept = line.bearing_deg !== null && from && !["node", "end", "first"].includes(found.what);
    return kept ? { ...found, at: alongBearing(from, line.bearing_deg, found.at), guide: null } : found;
  }

  // What lies there is joined, unless the point is to pass by.
  function pointOf(at, pass) {
    if (!spec.wants) return { at };
    if (pass) return { at, node: null };
    const node = nodeMeant(store.document, at, { wants: spec.wants, not: line.points.map((point) => point.node) });
    return node ? { at: node.at, node: node.id } : { at };
  }

  function set(at, pass = false) {
    const closes = spec.closed && line.points.length >= spec.least && samePlace(at, line.points[0].at, 0.005);
    if (closes || (last() && samePlace(at, last().at, 0.005) && line.points.length >= spec.least)) return finish();
    if (last() && samePlace(at, last().at, 0.005)) return redraw();
    line.points.push(pointOf(at, pass || strip.passing()));
    line.bearing_deg = null;
    if (line.points.length >= spec.least && spec.endsAt?.(last(), line.points)) return finish();
    return redraw();
  }

  function finish() {
    const points = withoutRepeats(line.points, { closed: spec.closed, atOf: (point) => point.at });
    if (points.length < spec.least) return say(`${spec.label} needs ${spec.least} points; there ${points.length === 1 ? "is 1" : `are ${points.length}`}.`);
    if (spec.finish(points) === false) return redraw();
    line.ended = last().at;
    return clear();
  }

  function clear() {
    Object.assign(line, { points: [], bearing_deg: null, press: null });
    redraw();
  }

  function back() {
    line.points.pop();
    line.bearing_deg = null;
    if (last()) cross.follow(last().at);
    redraw();
  }

  const stepOut = () => (line.points.length ? back() : context.leave());

  function take(figures) {
    const start = cross.byKeys ? cross.at : [0, 0];
    const towards = cross.byKeys ? cross.at : line.here?.at ?? null;
    const typed = pointsTyped(figures, { from: last()?.at ?? null, towards, start, bearing_deg: line.bearing_deg });
    if (typed.refused) return typed.refused;
    if (typed.box && !spec.boxes) return "A rectangle is for areas and surfaces. Type one length here.";
    if (typed.box) {
      line.points = typed.points.map((at) => ({ at }));
      finish();
      return null;
    }
    if (typed.bearing_deg !== undefined) line.bearing_deg = typed.bearing_deg;
    for (const at of typed.points) set(at);
    if (last()) cross.follow(last().at);
    line.here = null;
    redraw();
    return null;
  }

  function tell() {
    const node = spec.wants && nodeMeant(store.document, cross.at, { wants: spec.wants });
    say(`${node ? `${nameOf(node)}, ` : ""}${placeWords(cross.at, context.data.site.units)}`);
  }

  function crossMoved() {
    line.here = aim({ at: cross.at, cross: true });
    tell();
    redraw();
    return true;
  }

  function jump(event) {
    const place = placeAfter(store.document, cross.at, !event.shiftKey);
    if (!place) return false;
    cross.jump(place.at);
    return crossMoved();
  }

  function enter(event) {
    const finishes = event.key === "Enter" && !cross.byKeys && line.points.length > 0;
    if (finishes) finish();
    else set(aim({ at: cross.at, cross: true, shift: event.shiftKey }).at, event.ctrlKey || event.altKey);
    return true;
  }

  function onKey(event) {
    if (cross.moved(event)) return crossMoved();
    if (event.key === "Tab") return jump(event);
    if (event.key === "Enter" || event.key === " ") return enter(event);
    if (event.key === "Escape") return stepOut(), true;
    if (event.key === "Backspace" && line.points.length) return back(), true;
    if (!opensTyped(event.key) || event.ctrlKey || event.metaKey || event.altKey) return false;
    context.typed.open(event.key, { near: (last() ?? line.here)?.at ?? cross.at, take, boxes: spec.boxes });
    return true;
  }

  const pointer = {
    down(event) { line.press = aim(event); },
    move(event) {
      line.here = aim(event);
      cross.follow(line.here.at);
      redraw();
    },
    up(event) {
      const press = line.press;
      line.press = null;
      if (!press || !event.moved || event.cancelled) return;
      if (!line.points.length) set(press.at, event.ctrl || event.alt);
      const found = aim(event);
      cross.follow(found.at);
      set(found.at, event.ctrl || event.alt);
    },
    click(event) {
      const found = aim(event);
      cross.follow(found.at);
      set(found.at, event.ctrl || event.alt);
    },
    long(event) { pointer.click(event); },
    // Two quick clicks on neighbouring nodes are two points, on one spot the end.
    double(event) {
      const spot = last()?.at ?? line.ended;
      if (!spot || !samePlace(aim(event).at, spot, 0.02)) pointer.click(event);
      else if (line.points.length >= spec.least) finish();
    },
  };

  return {
    ...spec,
    onKey,
    commands: { done: finish, back, cancel: clear },
    typeFigures: () => context.typed.open("", { near: (last() ?? line.here)?.at ?? cross.at, take, boxes: spec.boxes }),
    enable() {
      board.panning(false);
      line.off = board.onPointer(pointer);
      redraw();
    },
    disable() {
      clear();
      Object.assign(line, { here: null, ended: null });
      line.off?.();
      board.sketch.clear();
    },
  };
}
