// Which fields each kind of thing has, and what several selected things have in common. Pure.
// `of: "supply"`: the value belongs to the plan's supply, of which the node is only the place.

const label = { name: "label", label: "Label", type: "text", optional: true };
const height = (name) => ({ name: "z_m", label: name, type: "measure", kind: "height", optional: true, empty: "from the levels" });

const NODE_FIELDS = {
  head: [
    label,
    { name: "part", label: "Part", type: "part", parts: "head" },
    { name: "from_deg", label: "Arc begins at", type: "measure", kind: "angle" },
    { name: "sweep_deg", label: "Arc", type: "measure", kind: "angle" },
    { name: "reach_m", label: "Throw set to", type: "measure", kind: "reach", optional: true, empty: "as it comes" },
    { name: "area", label: "Waters", type: "area", optional: true },
    height("Height"),
  ],
  valve: [label, { name: "part", label: "Part", type: "part", parts: "valve" }, height("Height")],
  controller: [label, { name: "part", label: "Part", type: "part", parts: "controller" }],
  junction: [label, height("Height")],
  supply: [
    label,
    { name: "backflow", label: "Backflow device", type: "part", parts: "backflow", optional: true, empty: "none named", of: "supply" },
    { name: "backflow_height_m", label: "Its height above ground", type: "measure", kind: "height", optional: true, empty: "not said", of: "supply" },
    { name: "meter", label: "Meter", type: "part", parts: "meter", optional: true, empty: "none named", of: "supply" },
    height("Height"),
  ],
};

const GROUP_FIELDS = {
  areas: [
    label,
    { name: "cover", label: "Grows", type: "choice", choices: "cover" },
    { name: "soil", label: "Soil", type: "choice", choices: "soil" },
    { name: "slope_pct", label: "Slope", type: "measure", kind: "slope" },
  ],
  surfaces: [label, { name: "kind", label: "Kind", type: "choice", choices: "surface" }],
  services: [
    label,
    { name: "kind", label: "Carries", type: "choice", choices: "service" },
    { name: "depth_m", label: "Depth", type: "measure", kind: "depth", optional: true, empty: "nobody knows" },
    { name: "located", label: "Located and marked out", type: "check" },
  ],
  marks: [label],
  levels: [{ name: "z_m", label: "Height", type: "measure", kind: "height" }],
  notes: [{ name: "text", label: "Note", type: "long" }],
  pipes: [{ name: "part", label: "Size", type: "part", parts: "pipe" }, { name: "via", label: "Bends", type: "count" }],
  cables: [{ name: "part", label: "Cable", type: "part", parts: "cable" }, { name: "via", label: "Bends", type: "count" }],
  sleeves: [
    { name: "part", label: "Sleeve", type: "part", parts: "sleeve", optional: true, empty: "none chosen" },
    { name: "existing", label: "There already", type: "check" },
  ],
};

// Not for the supply's readings, which are named by what they are.
const ID = { name: "id", label: "Id", type: "id" };

/** The fields of what `find` gives for an id. */
export const fieldsOf = ({ group, entity }) => (group === "nodes" ? NODE_FIELDS[entity.kind] : GROUP_FIELDS[group]) ?? [];

const sameField = (one, other) => one.name === other.name && one.type === other.type && one.parts === other.parts && one.choices === other.choices;

/** The fields that all of them have, in the order of the first. A label is one thing's own. */
export function commonFields(found) {
  const [first, ...others] = found.map(fieldsOf);
  const shared = (first ?? []).filter((field) => others.every((fields) => fields.some((other) => sameField(field, other))));
  if (others.length) return shared.filter((field) => !["label", "text", "via"].includes(field.name));
  return first && found[0].group !== "supply" ? [...shared, ID] : shared;
}

/** The value that all of them have, or {mixed: true}. */
export function commonValue(entities, name) {
  const [first, ...others] = entities.map((entity) => entity[name] ?? null);
  const same = others.every((value) => JSON.stringify(value) === JSON.stringify(first));
  return same ? { value: first, mixed: false } : { value: null, mixed: true };
}

const METRES_PER_FOOT = 0.3048; // exact (NIST SP 811, appendix B.8)

const plain = (value, digits) => String(Number(value.toFixed(digits)));

/** A measured value as it stands in its field, in the site's units. */
export function textOf(kind, value, units) {
  if (value === null || value === undefined) return "";
  if (kind === "angle") return `${plain(value, 1)}°`;
  if (kind === "slope") return `${plain(value, 1)} %`;
  return units === "us" ? `${plain(value / METRES_PER_FOOT, 2)} ft` : `${plain(value, 3)} m`;
}
