// Edits of a drawing over a picture. A drawing is never changed: each edit gives a new one.
// Places are pixels of the picture, [right, down] from its upper left corner.

/** @typedef {[number, number]} Pixel */
/** @typedef {{part: "scale"|"check"|"known"|"outline", id: string, index: number, at: Pixel}} Handle */

export const BARS = ["scale", "check"];
const BLANK_BAR = { first_px: null, second_px: null, length: "", first: "", second: "", bearing: "" };
const ENDS = ["first_px", "second_px"];

/** Which end of a scale the next click marks: the first one missing, else the first again. */
export function nextEnd(trace, name) {
  const bar = trace[name];
  if (!bar?.first_px) return 0;
  return bar.second_px ? 0 : 1;
}

export function markEnd(trace, name, index, at) {
  const bar = { ...BLANK_BAR, ...trace[name], [ENDS[index]]: at };
  return { ...trace, [name]: bar };
}

/** Begins a scale anew and keeps what was typed. */
export function forgetEnds(trace, name) {
  return trace[name] ? { ...trace, [name]: { ...trace[name], first_px: null, second_px: null } } : trace;
}

export function setBar(trace, name, props) {
  return { ...trace, [name]: { ...BLANK_BAR, ...trace[name], ...props } };
}

export function removeBar(trace, name) {
  return { ...trace, [name]: null };
}

/** A known point, in place of where it was marked before. */
export function markKnown(trace, point, at) {
  const others = trace.known.filter((one) => one.point !== point);
  return { ...trace, known: [...others, { point, at_px: at }] };
}

export function removeKnown(trace, point) {
  return { ...trace, known: trace.known.filter((one) => one.point !== point) };
}

export function freshId(trace) {
  const taken = new Set(trace.outlines.map((one) => one.id));
  let number = trace.outlines.length + 1;
  while (taken.has(`o${number}`)) number += 1;
  return `o${number}`;
}

export function startOutline(trace, at, { becomes, kind }) {
  const id = freshId(trace);
  const outline = { id, label: "", becomes, kind, pixels: [at], depth: "" };
  return { trace: { ...trace, outlines: [...trace.outlines, outline] }, id };
}

/** A square in the middle of the picture, to be moved by its numbers. */
export function squareOutline(trace, { width, height }, what) {
  const [left, right] = [Math.round(width * 0.4), Math.round(width * 0.6)];
  const [top, bottom] = [Math.round(height * 0.4), Math.round(height * 0.6)];
  const begun = startOutline(trace, [left, top], what);
  const corners = [[right, top], [right, bottom], [left, bottom]];
  return { ...begun, trace: corners.reduce((now, at) => addCorner(now, begun.id, at), begun.trace) };
}

export function setOutline(trace, id, props) {
  return changed(trace, id, (one) => ({ ...one, ...props }));
}

export function addCorner(trace, id, at) {
  return changed(trace, id, (one) => ({ ...one, pixels: [...one.pixels, at] }));
}

/** A corner half-way along the side behind one. */
export function splitSide(trace, id, index) {
  return changed(trace, id, (one) => {
    const [a, b] = [one.pixels[index], one.pixels[(index + 1) % one.pixels.length]];
    const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    return { ...one, pixels: one.pixels.toSpliced(index + 1, 0, middle) };
  });
}

/** Takes a corner away; with its last one the outline goes. */
export function removeCorner(trace, id, index) {
  const left = changed(trace, id, (one) => ({ ...one, pixels: one.pixels.toSpliced(index, 1) }));
  return { ...left, outlines: left.outlines.filter((one) => one.pixels.length > 0) };
}

export function undoCorner(trace, id) {
  const outline = outlineOf(trace, id);
  return outline ? removeCorner(trace, id, outline.pixels.length - 1) : trace;
}

export function removeOutline(trace, id) {
  return { ...trace, outlines: trace.outlines.filter((one) => one.id !== id) };
}

/** @param {Handle} handle @param {Pixel} at */
export function moveHandle(trace, handle, at) {
  if (BARS.includes(handle.part)) return markEnd(trace, handle.part, handle.index, at);
  if (handle.part === "known") return markKnown(trace, handle.id, at);
  return changed(trace, handle.id, (one) => ({ ...one, pixels: one.pixels.with(handle.index, at) }));
}

/** @returns {Handle[]} */
export function handlesOf(trace) {
  const handles = [];
  for (const outline of trace.outlines) {
    outline.pixels.forEach((at, index) => handles.push({ part: "outline", id: outline.id, index, at }));
  }
  for (const one of trace.known) handles.push({ part: "known", id: one.point, index: 0, at: one.at_px });
  for (const part of BARS) {
    ENDS.forEach((end, index) => {
      if (trace[part]?.[end]) handles.push({ part, id: part, index, at: trace[part][end] });
    });
  }
  return handles;
}

export function outlineOf(trace, id) {
  return trace.outlines.find((one) => one.id === id) ?? null;
}

export function isLine(outline) {
  return outline.becomes === "service";
}

/** What can be sent: scales with both ends, and nothing else left out. */
export function sendable(trace) {
  const whole = (bar) => (bar?.first_px && bar.second_px ? bar : null);
  return { ...trace, scale: whole(trace.scale), check: whole(trace.check) };
}

function changed(trace, id, change) {
  return { ...trace, outlines: trace.outlines.map((one) => (one.id === id ? change(one) : one)) };
}
