// The fields that the document knows, docs/plan.schema.json; it refuses others.

/** Beside those of every node, by kind. */
export const NODE_FIELDS = {
  supply: [],
  valve: ["part"],
  head: ["part", "from_deg", "sweep_deg", "reach_m", "area"],
  junction: [],
  controller: ["part"],
};

const FIELDS = {
  marks: ["id", "label", "at"],
  areas: ["id", "label", "cover", "outline", "holes", "soil", "slope_pct"],
  surfaces: ["id", "label", "kind", "outline"],
  services: ["id", "label", "kind", "path", "depth_m", "located"],
  levels: ["id", "at", "z_m"],
  nodes: ["id", "kind", "at", "z_m", "label"],
  pipes: ["id", "from", "to", "via", "part"],
  cables: ["id", "from", "to", "via", "part"],
  sleeves: ["id", "path", "part", "existing"],
  notes: ["id", "at", "text"],
  supply: ["at", "z_m", "static_kpa", "tests", "service_pipe", "meter", "backflow", "backflow_height_m"],
};

/** @param {string} group @param {string} [kind] of a node @returns {string[]} */
export function allowedFields(group, kind) {
  return group === "nodes" ? [...FIELDS.nodes, ...(NODE_FIELDS[kind] ?? [])] : FIELDS[group];
}
