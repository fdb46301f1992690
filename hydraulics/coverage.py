"""Depth of water on a grid over one area, and how evenly it falls.

Heads are laid on one after another, each on its own part of the grid; water beyond the
area's edge is lost and never counted back in, and none lies behind a wall.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from hydraulics.coverage_head import Floats, Point, WettingHead, lay, open_to, wet_beside
from hydraulics.coverage_shade import NO_WALLS, Walls
from hydraulics.coverage_spots import DrySpot, dry_spots
from hydraulics.uniformity import Uniformity, uniformity

__all__ = ["Wetting", "WettingHead", "grid_axes", "wetting"]

# a grid finer than this many cells is made coarser
MOST_CELLS = 2_000_000


@dataclass(frozen=True)
class Wetting:
    """Over the cells whose centre lies in the area: mm/h and number of heads; n cells.

    ``centres`` is n by 2 in metres. ``caught_lpm`` is what lands in the area. ``dry`` are the cells
    that no head reaches and no arc passes close by; ``dry_spots`` joins them, the largest first.
    """

    grid_m: float
    area_m2: float
    centres: Floats
    mm_per_hour: Floats
    heads_seen: NDArray[np.int16]
    dry: NDArray[np.bool_]
    dry_spots: tuple[DrySpot, ...]
    caught_lpm: float

    @property
    def dry_spot_m2(self) -> float:
        """The largest dry spot."""
        return self.dry_spots[0].area_m2 if self.dry_spots else 0.0

    @property
    def dry_m2(self) -> float:
        return self.area_m2 * float(self.dry.sum()) / self.dry.size if self.dry.size else 0.0

    @property
    def mean_mm_per_hour(self) -> float:
        return float(self.mm_per_hour.mean()) if self.mm_per_hour.size else 0.0

    def reached_m2(self, by_at_least: int = 1) -> float:
        """Part of the area that that many heads reach."""
        cells = self.heads_seen.size
        return self.area_m2 * float((self.heads_seen >= by_at_least).sum()) / cells if cells else 0.0

    def uniformity(self) -> Uniformity:
        return uniformity(self.mm_per_hour)


def wetting(
    rings: Sequence[Sequence[Point]],
    heads: Sequence[WettingHead],
    grid_m: float = 0.25,
    walls: Walls = NO_WALLS,
) -> Wetting:
    """Water on the area inside the first ring and outside the others, at that grid in metres."""
    polygon = shapely.Polygon(rings[0], rings[1:])
    grid_m, xs, ys = grid_axes(polygon.bounds, grid_m)
    depth = np.zeros((len(ys), len(xs)))
    seen = np.zeros(depth.shape, dtype=np.int16)
    for head in heads:
        laid = lay(head, xs, ys, walls)
        if laid is not None:
            free = open_to(laid)
            depth[laid.rows, laid.columns] += laid.mm_per_hour if free is None else laid.mm_per_hour * free
            seen[laid.rows, laid.columns] += laid.wet if free is None else laid.wet & free
    shapely.prepare(polygon)
    inside = shapely.contains_xy(polygon, *np.meshgrid(xs, ys))
    dry = inside & (seen == 0) & ~_beside_arcs(inside & (seen == 0), heads, (xs, ys), walls)
    rows, columns = np.nonzero(inside)
    on_area = depth[inside]
    cell_m2 = polygon.area / len(rows) if len(rows) else 0.0
    return Wetting(
        grid_m=grid_m,
        area_m2=polygon.area,
        centres=np.column_stack((xs[columns], ys[rows])),
        mm_per_hour=on_area,
        heads_seen=seen[inside],
        dry=dry[inside],
        dry_spots=dry_spots(dry, (xs, ys), cell_m2),
        caught_lpm=float(on_area.sum()) * cell_m2 / 60.0,
    )


def _beside_arcs(
    dry: NDArray[np.bool_], heads: Sequence[WettingHead], axes: tuple[Floats, Floats], walls: Walls
) -> NDArray[np.bool_]:
    """Cells that get wet a hand beside an arc. Without it a lawn that was measured a few centimetres
    wider than it was planned would be dry all along its side.
    """
    found = np.zeros(dry.shape, dtype=np.bool_)
    if dry.any():
        for head in heads:
            part = wet_beside(head, *axes, walls)
            if part is not None:
                rows, columns, beside = part
                found[rows, columns] |= beside
    return found


def grid_axes(bounds: tuple[float, float, float, float], grid_m: float) -> tuple[float, Floats, Floats]:
    """The grid that is taken [m], and the middles of its columns and rows within those bounds."""
    west, south, east, north = bounds
    grid_m = max(grid_m, math.sqrt((east - west) * (north - south) / MOST_CELLS))
    return grid_m, _middles(west, east, grid_m), _middles(south, north, grid_m)


def _middles(start: float, end: float, step_m: float) -> Floats:
    count = max(math.ceil((end - start) / step_m - 1e-9), 1)
    middles: Floats = start + step_m * (np.arange(count, dtype=np.float64) + 0.5)
    return middles
