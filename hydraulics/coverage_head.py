"""What one head wets: the depth that it lays on the part of a grid that it can reach."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hydraulics.coverage_profile import Row, Shape, relative_depth, sector_weight
from hydraulics.coverage_shade import NO_WALLS, UNSHADED, Walls, near_walls, shaded_by

Floats = NDArray[np.float64]
Point = tuple[float, float]
# a hair over the rim, so that a cell right at the throw counts
RIM_M = 1e-6
ANGLE_DEG = 1e-7
# common practice, no source: the side of an arc is no knife's edge, and ground this far beside it gets wet
BESIDE_ARC_M = 0.10


@dataclass(frozen=True)
class WettingHead:
    """What one head wets. Angles are degrees clockwise from north.

    ``reaches_m`` are throws at equal steps of bearing from north, or at ``bearings_deg`` (rising,
    within 0 to 360), for a head whose throw varies; then ``reach_m`` and the arc are not looked at.
    ``profile_rows`` (share of the throw, relative depth) go before ``profile``.
    """

    at: Point
    flow_lpm: float
    reach_m: float
    from_deg: float = 0.0
    sweep_deg: float = 360.0
    profile: Shape = "triangular"
    reaches_m: tuple[float, ...] = ()
    profile_rows: tuple[Row, ...] = ()
    bearings_deg: tuple[float, ...] = ()

    @property
    def farthest_m(self) -> float:
        return max(self.reaches_m) if self.reaches_m else self.reach_m


@dataclass(frozen=True)
class Laid:
    """One head on its window of the grid: mm/h, and which cells it wets; rows by columns.

    ``hidden_by`` is the building that takes the water of a cell, -1 for none; None without walls.
    """

    rows: slice
    columns: slice
    mm_per_hour: Floats
    wet: NDArray[np.bool_]
    hidden_by: NDArray[np.int16] | None


def lay(head: WettingHead, xs: Floats, ys: Floats, walls: Walls = NO_WALLS) -> Laid | None:
    """The head on the grid with those columns and rows; none where it throws nowhere."""
    far = head.farthest_m + RIM_M
    if far <= RIM_M:
        return None
    rows, columns = _window(head, xs, ys)
    east = xs[columns][None, :] - head.at[0]
    north = ys[rows][:, None] - head.at[1]
    distance = np.sqrt(east * east + north * north)
    rim, sector_m2 = _rim_and_sector(head, east, north)
    wet = distance <= rim + RIM_M
    if not head.reaches_m and head.sweep_deg < 360:
        wet &= _in_arc(head, east, north)
    share = distance / np.maximum(rim, RIM_M)
    # 60 times L/min over m2 are mm/h
    rate = 60.0 * head.flow_lpm / (sector_m2 * sector_weight(head.profile, head.profile_rows))
    depth = np.where(wet, rate * relative_depth(share, head.profile, head.profile_rows), 0.0)
    near = near_walls(walls, head.at, far)
    return Laid(rows, columns, depth, wet, shaded_by(near, east, north) if len(near.sides) else None)


def wet_beside(
    head: WettingHead, xs: Floats, ys: Floats, walls: Walls = NO_WALLS
) -> tuple[slice, slice, NDArray[np.bool_]] | None:
    """Cells of a window that the head wets though they lie a hand beside its arc; none without an arc.

    No depth is told of them: the water of the sector is laid within it, and none is counted twice.
    """
    if head.reaches_m or head.sweep_deg >= 360 or head.reach_m <= 0:
        return None
    rows, columns = _window(head, xs, ys)
    east = xs[columns][None, :] - head.at[0]
    north = ys[rows][:, None] - head.at[1]
    start, end = math.radians(head.from_deg), math.radians(head.from_deg + head.sweep_deg)
    # metres to the left of the ray on which the arc begins, and to the right of that on which it ends
    before_start = north * math.sin(start) - east * math.cos(start)
    after_end = east * math.cos(end) - north * math.sin(end)
    sides = before_start <= BESIDE_ARC_M, after_end <= BESIDE_ARC_M
    beside = sides[0] | sides[1] if head.sweep_deg > 180 else sides[0] & sides[1]
    beside &= east * east + north * north <= (head.reach_m + RIM_M) ** 2
    near = near_walls(walls, head.at, head.reach_m)
    if len(near.sides):
        beside &= shaded_by(near, east, north) == UNSHADED
    return rows, columns, beside


def _window(head: WettingHead, xs: Floats, ys: Floats) -> tuple[slice, slice]:
    """Rows and columns of the grid within reach of the head."""
    far = head.farthest_m + RIM_M
    columns = slice(*np.searchsorted(xs, (head.at[0] - far, head.at[0] + far)))
    rows = slice(*np.searchsorted(ys, (head.at[1] - far, head.at[1] + far)))
    return rows, columns


def open_to(laid: Laid) -> NDArray[np.bool_] | None:
    """Cells that no building hides; none where nothing is hidden."""
    return None if laid.hidden_by is None else laid.hidden_by == UNSHADED


def _rim_and_sector(head: WettingHead, east: Floats, north: Floats) -> tuple[Floats | float, float]:
    """Throw at each cell [m], and the area of the whole sector [m2]."""
    if not head.reaches_m:
        return head.reach_m, math.pi * head.reach_m**2 * min(head.sweep_deg, 360.0) / 360.0
    bearings, throws = _table(head)
    after, before = throws[1:], throws[:-1]
    # the throw runs straight from bearing to bearing, so that its square has this integral
    squares = (before * before + before * after + after * after) / 3.0
    sector_m2 = float((squares * np.radians(np.diff(bearings))).sum()) / 2.0
    return np.interp(np.degrees(np.arctan2(east, north)) % 360.0, bearings, throws), sector_m2


def _table(head: WettingHead) -> tuple[Floats, Floats]:
    """Bearings over one whole turn, from below 0 or at it, and the throw at each."""
    throws = np.array([*head.reaches_m, head.reaches_m[0]])
    if not head.bearings_deg:
        return np.arange(len(throws), dtype=float) * (360.0 / len(head.reaches_m)), throws
    given = np.array([*head.bearings_deg, head.bearings_deg[0] + 360.0])
    if given[0] <= 0.0:
        return given, throws
    at_north = np.interp(360.0, given, throws)
    inner = given[:-1]
    return np.array([0.0, *inner, 360.0]), np.array([at_north, *throws[:-1], at_north])


def _in_arc(head: WettingHead, east: Floats, north: Floats) -> NDArray[np.bool_]:
    """Cells from the arc's start, included, to its end, left out, so that two arcs share no cell."""
    beyond_start = np.degrees(np.arctan2(east, north)) - (head.from_deg - ANGLE_DEG)
    return beyond_start % 360.0 < head.sweep_deg
