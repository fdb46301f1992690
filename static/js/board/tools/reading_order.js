// The order in which Tab goes through what is drawn: as one reads, from the top left, row by row.

const ROW_M = 0.5;

function entries(doc) {
  const ground = doc.ground ?? {};
  const layout = doc.layout ?? {};
  const list = [];
  const add = (entities, pointsOf) => {
    for (const entity of entities ?? []) if (entity.id) list.push({ id: entity.id, points: pointsOf(entity) });
  };
  const nodes = new Map((layout.nodes ?? []).map((node) => [node.id, node.at]));
  const ends = (link) => [nodes.get(link.from), ...(link.via ?? []), nodes.get(link.to)].filter(Boolean);
  for (const outlined of [ground.areas, ground.surfaces]) add(outlined, (one) => one.outline);
  for (const path of [ground.services, layout.sleeves]) add(path, (one) => one.path);
  for (const spot of [ground.marks, ground.levels, layout.nodes, layout.notes]) add(spot, (one) => (one.at ? [one.at] : []));
  for (const link of [layout.pipes, layout.cables]) add(link, ends);
  return list.filter((entry) => entry.points.length);
}

const placeOf = (entry) => ({
  id: entry.id,
  row: Math.round(-Math.max(...entry.points.map((point) => point[1])) / ROW_M),
  left: Math.min(...entry.points.map((point) => point[0])),
});

/** Every id that has a place, top left first. */
export function readingOrder(doc) {
  const places = entries(doc).map(placeOf);
  return places.sort((one, other) => one.row - other.row || one.left - other.left).map((place) => place.id);
}

/** The id after (or before) the selected one; null past either end, so that Tab can leave the plan. */
export function neighbourOf(doc, selection, forward) {
  const order = readingOrder(doc);
  const at = order.indexOf(selection.at(-1));
  if (at < 0) return (forward ? order[0] : order.at(-1)) ?? null;
  return order[at + (forward ? 1 : -1)] ?? null;
}
