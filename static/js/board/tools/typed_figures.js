// Takes apart what is typed while drawing. Lengths and angles stay text: only the server reads them.
//
//   24          so far along the guide            24 x 12   a rectangle, east by north
//   24 @ 90     so far at a bearing               3; 4      the place 3 east and 4 north of the origin
//   @ 90        along that bearing from now on    + 3; 4    3 east and 4 north of the last point
//
// A comma is left alone, for 7,32 is a length.

const WANTED = 'Type a length (24), length @ bearing (24 @ 90), "24 x 12", or a place "3; 4".';
const TIMES = /\s*[x×]\s*|\s+by\s+/i;

const refused = (sentence) => ({ kind: "refused", sentence });

export function parseFigures(text) {
  const typed = text.trim();
  if (!typed) return refused(WANTED);
  if (typed.includes(";")) return eastAndNorth(typed);
  if (typed.includes("@")) return lengthAtBearing(typed);
  const sides = typed.split(TIMES);
  if (sides.length === 2) return box(sides);
  if (sides.length > 2) return refused("A rectangle has two figures: 24 x 12.");
  return { kind: "length", length: typed };
}

function box([width, height]) {
  if (!width || !height) return refused("A rectangle has two figures: 24 x 12.");
  return { kind: "box", width: signed(width), height: signed(height) };
}

function lengthAtBearing(typed) {
  const [length, bearing, ...more] = typed.split("@").map((part) => part.trim());
  if (!bearing || more.length) return refused("A bearing follows the @: 24 @ 90 goes 24 to the east.");
  return length ? { kind: "polar", length, bearing } : { kind: "bearing", bearing };
}

function eastAndNorth(typed) {
  const step = typed.startsWith("+");
  const parts = (step ? typed.slice(1) : typed).split(";").map((part) => part.trim());
  if (parts.length !== 2 || parts.some((part) => part === "")) {
    return refused('A place has two figures, east and north: "3; 4".');
  }
  return { kind: step ? "step" : "place", east: signed(parts[0]), north: signed(parts[1]) };
}

// The server measures lengths, which have no sign; west and south do.
export function signed(text) {
  const below = /^[-−]/.test(text);
  return { sign: below ? -1 : 1, text: text.replace(/^[-−+]\s*/, "") };
}

/** The texts that `measure` has to read, with the kind of each. */
export function figuresToMeasure(figures) {
  const lengths = { length: ["length"], polar: ["length"], box: ["width", "height"], step: ["east", "north"], place: ["east", "north"] };
  const asked = (lengths[figures.kind] ?? []).map((name) => ({ name, kind: "length", text: figures[name].text ?? figures[name] }));
  if (figures.bearing !== undefined) asked.push({ name: "bearing", kind: "angle", text: figures.bearing });
  return asked;
}

/** What the figures come to, once `values` holds metres and degrees by name. */
export function figuresMeasured(figures, values) {
  const sized = (name) => (figures[name].sign ?? 1) * values[name];
  switch (figures.kind) {
    case "length": return { kind: "length", length_m: values.length };
    case "polar": return { kind: "polar", length_m: values.length, bearing_deg: values.bearing };
    case "bearing": return { kind: "bearing", bearing_deg: values.bearing };
    case "box": return { kind: "box", width_m: sized("width"), height_m: sized("height") };
    default: return { kind: figures.kind, east_m: sized("east"), north_m: sized("north") };
  }
}

/** Does this key begin something typed? */
export const opensTyped = (key) => /^[0-9+.@−-]$/.test(key);
