"""Depth on the grid of an area as a few patches of like depth, for a picture."""

from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from hydraulics.coverage import Wetting

# shares of the area's own mean: the fourth class is what was meant
EDGES = (0.4, 0.65, 0.85, 1.15, 1.5)
# cells of a picture: no smaller than this, and no more of them
CELL_M = 0.25
MOST_CELLS = 12_000
DRY = -1


def class_words() -> list[str]:
    """Each class in words, the driest first."""
    ends = [f"{100 * edge:.0f}" for edge in EDGES]
    between = [f"{low} to {high} %" for low, high in pairwise(ends)]
    return [f"less than {ends[0]} %", *between, f"more than {ends[-1]} %"]


def patches(wet: Wetting, outline: shapely.Polygon) -> dict[int, shapely.Geometry]:
    """By class, the ground on which that much falls; DRY where no head reaches."""
    if not wet.mm_per_hour.size:
        return {}
    size = max(CELL_M, wet.grid_m, (wet.area_m2 / MOST_CELLS) ** 0.5)
    west, south = wet.centres.min(axis=0) - wet.grid_m / 2
    columns = ((wet.centres[:, 0] - west) / size + 1e-9).astype(np.int64)
    rows = ((wet.centres[:, 1] - south) / size + 1e-9).astype(np.int64)
    width = int(columns.max()) + 1
    cell, of = np.unique(rows * width + columns, return_inverse=True)
    count = np.bincount(of)
    depth = np.bincount(of, wet.mm_per_hour) / count
    dry = np.bincount(of, wet.dry) * 2 > count
    classes = np.where(dry, DRY, np.searchsorted(EDGES, depth / max(wet.mean_mm_per_hour, 1e-9)))
    found = {}
    for wanted in np.unique(classes).tolist():
        mine = cell[classes == wanted]
        found[wanted] = _joined(mine // width, mine % width, (west, south, size)).intersection(outline)
    return found


def _joined(
    rows: NDArray[np.int64], columns: NDArray[np.int64], grid: tuple[float, float, float]
) -> shapely.Geometry:
    """Cells as one shape; those side by side in a row are joined before the union is sought."""
    west, south, size = grid
    ends = np.flatnonzero((np.diff(rows) != 0) | (np.diff(columns) != 1))
    first, last = np.concatenate([[0], ends + 1]), np.concatenate([ends, [len(rows) - 1]])
    # joined in whole cells, where sides that touch are equal to the last bit
    boxes = shapely.box(columns[first], rows[first], columns[last] + 1, rows[first] + 1)
    return shapely.transform(shapely.union_all(boxes), lambda at: at * size + (west, south))
