// What lies under the pointer: handles of the selection, then points, then lines, then areas.
const RANKS = { Point: 1, LineString: 2, Polygon: 3 };
const HITTABLE = ["nodes", "marks", "levels", "notes", "pipes", "cables", "sleeves", "services", "ground"];

function away_px(feature, at, resolution) {
  const geometry = feature.getGeometry();
  if (geometry.getType() === "Polygon" && geometry.intersectsCoordinate(at)) return 0;
  const [x, y] = geometry.getClosestPoint(at);
  return Math.hypot(x - at[0], y - at[1]) / resolution;
}

function boxAbout([x, y], half) {
  return [x - half, y - half, x + half, y + half];
}

export function createHit({ families, isFamilyShown, handles }) {
  function near(at, tolerance_px, resolution) {
    const box = boxAbout(at, tolerance_px * resolution);
    const found = [];
    for (const family of HITTABLE) {
      if (!isFamilyShown(family)) continue;
      for (const source of families[family].sources) {
        for (const feature of source.getFeaturesInExtent(box)) {
          const distance_px = away_px(feature, at, resolution);
          if (distance_px <= tolerance_px) found.push(describe(feature, distance_px));
        }
      }
    }
    return found;
  }

  function describe(feature, distance_px) {
    const extent = feature.getGeometry().getExtent();
    const size = (extent[2] - extent[0]) * (extent[3] - extent[1]);
    const rank = RANKS[feature.getGeometry().getType()];
    const { key: id, group } = feature;
    return { id, handle: null, distance_px, group, rank, size };
  }

  // Of areas the smaller is nearer to hand; of all else the closer.
  function order(a, b) {
    if (a.rank !== b.rank) return a.rank - b.rank;
    return a.rank === 3 ? a.size - b.size : a.distance_px - b.distance_px;
  }

  function grabbed(at, tolerance_px, resolution) {
    return handles()
      .map((handle) => {
        const distance_px = Math.hypot(handle.at[0] - at[0], handle.at[1] - at[1]) / resolution;
        return { id: handle.id, handle, distance_px, group: "handle" };
      })
      .filter((hit) => hit.distance_px <= tolerance_px)
      .sort((a, b) => a.distance_px - b.distance_px);
  }

  return (at, tolerance_px, resolution) => {
    const entities = near(at, tolerance_px, resolution).sort(order);
    return [
      ...grabbed(at, tolerance_px, resolution),
      ...entities.map(({ id, handle, distance_px, group }) => ({ id, handle, distance_px, group })),
    ];
  };
}
