"""Depth of water on a grid over one area, and how evenly it falls.

Heads are laid on one after another, each on its own part of the grid; water beyond the
area's edge is lost and never counted back in.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy import ndimage

from hydraulics.uniformity import Uniformity, uniformity

Floats = NDArray[np.float64]
Point = tuple[float, float]
Profile = Literal["uniform", "triangular"]
# a grid finer than this many cells is made coarser
MOST_CELLS = 2_000_000
# a hair over the rim, so that a cell right at the throw counts
RIM_M = 1e-6
ANGLE_DEG = 1e-7


@dataclass(frozen=True)
class WettingHead:
    """What one head wets. Angles are degrees clockwise from north.

    ``reaches_m`` are throws at equal steps of bearing from north, for a head whose throw
    varies; then ``reach_m`` and the arc are not looked at.
    """

    at: Point
    flow_lpm: float
    reach_m: float
    from_deg: float = 0.0
    sweep_deg: float = 360.0
    profile: Profile = "triangular"
    reaches_m: tuple[float, ...] = ()


@dataclass(frozen=True)
class Wetting:
    """Over the cells whose centre lies in the area: mm/h and number of heads; n cells.

    ``centres`` is n by 2 in metres. ``caught_lpm`` is what lands in the area.
    """

    grid_m: float
    area_m2: float
    centres: Floats
    mm_per_hour: Floats
    heads_seen: NDArray[np.int16]
    dry_spot_m2: float
    caught_lpm: float

    @property
    def mean_mm_per_hour(self) -> float:
        return float(self.mm_per_hour.mean()) if self.mm_per_hour.size else 0.0

    def reached_m2(self, by_at_least: int = 1) -> float:
        """Part of the area that that many heads reach."""
        cells = self.heads_seen.size
        return self.area_m2 * float((self.heads_seen >= by_at_least).sum()) / cells if cells else 0.0

    def uniformity(self) -> Uniformity:
        return uniformity(self.mm_per_hour)


def wetting(rings: Sequence[Sequence[Point]], heads: Sequence[WettingHead], grid_m: float = 0.25) -> Wetting:
    """Water on the area inside the first ring and outside the others, at that grid in metres."""
    polygon = shapely.Polygon(rings[0], rings[1:])
    west, south, east, north = polygon.bounds
    grid_m = max(grid_m, math.sqrt((east - west) * (north - south) / MOST_CELLS))
    xs = west + grid_m * (np.arange(max(math.ceil((east - west) / grid_m - 1e-9), 1)) + 0.5)
    ys = south + grid_m * (np.arange(max(math.ceil((north - south) / grid_m - 1e-9), 1)) + 0.5)
    depth = np.zeros((len(ys), len(xs)))
    seen = np.zeros(depth.shape, dtype=np.int16)
    for head in heads:
        _lay(head, xs, ys, depth, seen)
    shapely.prepare(polygon)
    inside = shapely.contains_xy(polygon, *np.meshgrid(xs, ys))
    return _gather(polygon.area, grid_m, (xs, ys), inside, (depth, seen))


def _gather(
    area_m2: float,
    grid_m: float,
    axes: tuple[Floats, Floats],
    inside: NDArray[np.bool_],
    laid: tuple[Floats, NDArray[np.int16]],
) -> Wetting:
    depth, seen = laid
    rows, columns = np.nonzero(inside)
    on_area = depth[inside]
    cell_m2 = area_m2 / len(rows) if len(rows) else 0.0
    return Wetting(
        grid_m=grid_m,
        area_m2=area_m2,
        centres=np.column_stack((axes[0][columns], axes[1][rows])),
        mm_per_hour=on_area,
        heads_seen=seen[inside],
        dry_spot_m2=_largest_spot(inside & (seen == 0)) * cell_m2,
        caught_lpm=float(on_area.sum()) * cell_m2 / 60.0,
    )


def _largest_spot(dry: NDArray[np.bool_]) -> int:
    """Cells of the largest dry patch, joined by their sides."""
    if not dry.any():
        return 0
    labels, _ = ndimage.label(dry)
    return int(np.bincount(labels.ravel())[1:].max())


def _lay(head: WettingHead, xs: Floats, ys: Floats, depth: Floats, seen: NDArray[np.int16]) -> None:
    """Add one head to the part of the grid that it can reach."""
    far = (max(head.reaches_m) if head.reaches_m else head.reach_m) + RIM_M
    if far <= RIM_M:
        return
    columns = slice(*np.searchsorted(xs, (head.at[0] - far, head.at[0] + far)))
    rows = slice(*np.searchsorted(ys, (head.at[1] - far, head.at[1] + far)))
    east = xs[columns][None, :] - head.at[0]
    north = ys[rows][:, None] - head.at[1]
    distance = np.sqrt(east * east + north * north)
    rim, rate = _rim_and_rate(head, east, north)
    wet = distance <= rim + RIM_M
    if not head.reaches_m and head.sweep_deg < 360:
        wet &= _in_arc(head, east, north)
    if head.profile == "triangular":
        fall = np.clip(1.0 - distance / np.maximum(rim, RIM_M), 0.0, 1.0)
        depth[rows, columns] += np.where(wet, rate * fall, 0.0)
    else:
        depth[rows, columns] += np.where(wet, rate, 0.0)
    seen[rows, columns] += wet


def _rim_and_rate(head: WettingHead, east: Floats, north: Floats) -> tuple[Floats | float, float]:
    """Throw at each cell, and mm/h: of the whole sector if uniform, at the head if triangular.

    Either way the whole sector takes 60 times the flow in L/min, as L/m2 are mm.
    """
    if head.reaches_m:
        throws = np.array([*head.reaches_m, head.reaches_m[0]])
        step = 360.0 / len(head.reaches_m)
        bearing = np.degrees(np.arctan2(east, north)) % 360.0
        rim: Floats | float = np.interp(bearing, step * np.arange(len(throws)), throws)
        sector_m2 = float(np.mean(throws[:-1] ** 2)) * math.pi
    else:
        rim = head.reach_m
        sector_m2 = math.pi * head.reach_m**2 * min(head.sweep_deg, 360.0) / 360.0
    # a cone holds a third of the cylinder around it
    return rim, 60.0 * head.flow_lpm / sector_m2 * (3.0 if head.profile == "triangular" else 1.0)


def _in_arc(head: WettingHead, east: Floats, north: Floats) -> NDArray[np.bool_]:
    """Cells from the arc's start, included, to its end, left out, so that two arcs share no cell."""
    beyond_start = np.degrees(np.arctan2(east, north)) - (head.from_deg - ANGLE_DEG)
    return beyond_start % 360.0 < head.sweep_deg
