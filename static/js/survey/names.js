// Names of points that nobody typed: the next free number.

export function nextName(used) {
  const numbers = used.filter((name) => /^\d{1,6}$/.test(name)).map(Number);
  return String(Math.max(0, ...numbers) + 1);
}

// Lines of a pasted page, without the empty ones.
export function pastedLines(text) {
  return text
    .split(/\r\n|\r|\n/)
    .map((line) => line.replace(/\t/g, " ").trim())
    .filter(Boolean);
}

// Which field Enter goes to: the next one, or beyond its list where the row is empty.
// `stops` are {list, isRowFilled} in page order; `here` is an index; `short` lists are left at their first empty row.
export function nextStop(stops, here, short = new Set()) {
  const { list, isRowFilled } = stops[here];
  if (!isRowFilled) return stops.findIndex((stop, place) => place > here && stop.list !== list);
  const next = here + 1;
  if (next >= stops.length) return -1;
  const leaves = short.has(list) && stops[next].list === list && !stops[next].isRowFilled;
  return leaves ? stops.findIndex((stop, place) => place > here && stop.list !== list) : next;
}

// Whether the first field of a point holds both its tapes: 15.52 25.00 R, or 50' 11" ; 82' 3".
export function holdsBothTapes(text) {
  return text.includes(";") || /^\s*[\d.,]+\s+[\d.,]+(\s+[lr][a-z]*)?\s*$/i.test(text);
}
