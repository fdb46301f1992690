// What a click on the picture does, by what the person is about to mark. Pure: a state in, a state out.
// A state is {trace, mode, current, point, becomes}; mode is "look", "scale", "check", "known" or "outline".

import * as edits from "./edits.js";

export const HELP = {
  look: "Drag the picture to move it, pinch or turn the wheel to zoom. Drag a point to correct it.",
  scale: "Click the two points whose distance you know. The farther apart, the better.",
  check: "Click two other points whose distance you know, best across the first.",
  known: "Click where the picture shows the point that you chose.",
  outline: "Click corner by corner. Click the first corner again, or press Close, to end it.",
};

/** Chooses what the next clicks mark. */
export function choose(state, mode) {
  return { ...state, mode: state.mode === mode ? "look" : mode, current: null };
}

/** A click at a place, or on a handle: then at its very place. */
export function click(state, at, handle = null) {
  const place = handle ? handle.at : at;
  if (edits.BARS.includes(state.mode)) return markEnd(state, place);
  if (state.mode === "known") return markKnown(state, place);
  if (state.mode === "outline") return corner(state, place, handle);
  return handle?.part === "outline" ? { ...state, current: handle.id } : state;
}

/** Ends the outline that is being drawn. */
export function close(state) {
  return { ...state, mode: "look" };
}

function markEnd(state, at) {
  const index = edits.nextEnd(state.trace, state.mode);
  const begun = index === 0 ? edits.forgetEnds(state.trace, state.mode) : state.trace;
  const trace = edits.markEnd(begun, state.mode, index, at);
  return { ...state, trace, mode: index === 1 ? "look" : state.mode };
}

function markKnown(state, at) {
  if (!state.point) return state;
  return { ...state, trace: edits.markKnown(state.trace, state.point, at), mode: "look" };
}

function corner(state, at, handle) {
  const outline = edits.outlineOf(state.trace, state.current);
  if (!outline) {
    const begun = edits.startOutline(state.trace, at, state.becomes);
    return { ...state, trace: begun.trace, current: begun.id };
  }
  const onFirst = handle?.part === "outline" && handle.id === outline.id && handle.index === 0;
  if (onFirst) return outline.pixels.length > 2 ? close(state) : state;
  const last = outline.pixels.at(-1);
  if (last[0] === at[0] && last[1] === at[1]) return state;
  return { ...state, trace: edits.addCorner(state.trace, outline.id, at) };
}
