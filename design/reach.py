"""How far each head must throw: to the farthest point that it has to wet.

A head whose throw varies with bearing wets what it can see of its area; where several share
an area, each takes what is nearest to it. Heads of one throw share their area by distance
over throw: a head must reach the farthest point that no other head's arc serves better.
Distances are radii, never diameters.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from design.document import Area
from design.geometry import XY, bearing_deg, bounds, distance_to_rings, edges, in_arc
from design.visibility import inside_point, nearer_part, visible_polygon

Pattern = Literal["fixed_arc", "full_circle", "by_bearing"]
SAMPLE_M = 0.5
# common practice, no source: a head on the kerb beside an area still waters that area
BESIDE_AREA_M = 0.5


@dataclass(frozen=True)
class ReachingHead:
    """A head as the reach sees it; ``throw_m`` is a radius."""

    id: str
    at: XY
    pattern: Pattern
    throw_m: float
    from_deg: float = 0.0
    sweep_deg: float = 360.0
    area: str | None = None


@dataclass(frozen=True)
class Reach:
    """Distance to the farthest point that a head must wet; 0 and none where it has none."""

    needed_m: float
    at: XY | None

    def bearing_from(self, head: XY) -> float | None:
        return bearing_deg(head, self.at) if self.at is not None and self.at != head else None


def rings_of(area: Area) -> list[Sequence[XY]]:
    return [area.outline, *area.holes]


def area_of_head(head: ReachingHead, areas: Sequence[Area]) -> Area | None:
    """The area named by the head, else the one that it stands in or right beside."""
    if head.area is not None:
        return next(area for area in areas if area.id == head.area)
    near = [(distance_to_rings(head.at, rings_of(area)), place) for place, area in enumerate(areas)]
    distance, place = min(near, default=(math.inf, 0))
    return areas[place] if distance <= BESIDE_AREA_M else None


def heads_by_area(heads: Sequence[ReachingHead], areas: Sequence[Area]) -> dict[str, list[ReachingHead]]:
    """Heads that water each area; heads beside no area are left out."""
    found: dict[str, list[ReachingHead]] = {area.id: [] for area in areas}
    for head in heads:
        area = area_of_head(head, areas)
        if area is not None:
            found[area.id].append(head)
    return found


def reaches(heads: Sequence[ReachingHead], areas: Sequence[Area]) -> dict[str, Reach]:
    """How far each head must throw, by head id; heads beside no area need nothing."""
    needed = {head.id: Reach(0.0, None) for head in heads}
    shared = heads_by_area(heads, areas)
    for area in areas:
        scanning = [head for head in shared[area.id] if head.pattern == "by_bearing"]
        fixed = [head for head in shared[area.id] if head.pattern != "by_bearing"]
        for head in scanning:
            needed[head.id] = scanning_reach(head, scanning, area)
        needed |= fixed_reaches(fixed, area)
    return needed


def scanning_reach(head: ReachingHead, sharing: Sequence[ReachingHead], area: Area) -> Reach:
    """The farthest visible corner of the head's share of its area."""
    share = visible_polygon(rings_of(area), head.at)
    for other in sharing:
        if other.id != head.id and share and other.at != head.at:
            share = nearer_part(share, head.at, other.at)
    seen = [p for p in share if in_arc(bearing_deg(head.at, p), head.from_deg, head.sweep_deg)]
    if not seen:
        return Reach(0.0, None)
    far = max(seen, key=lambda point: math.dist(head.at, point))
    return Reach(math.dist(head.at, far), far)


def fixed_reaches(heads: Sequence[ReachingHead], area: Area) -> dict[str, Reach]:
    """Farthest point that each head serves best, of points 0.5 m apart, edges and corners among them."""
    if not heads:
        return {}
    points = sample_points(area)
    distance, ratio = _distance_and_ratio(heads, points)
    least = ratio.min(axis=1)
    # a point halfway between two heads is one that both must reach
    served = np.isfinite(least)[:, None] & (ratio <= least[:, None] * (1 + 1e-6))
    found = {}
    for place, head in enumerate(heads):
        mine = np.flatnonzero(served[:, place])
        if len(mine):
            far = mine[distance[mine, place].argmax()]
            found[head.id] = Reach(
                float(distance[far, place]), (float(points[far, 0]), float(points[far, 1]))
            )
    return found


def shares_m2(heads: Sequence[ReachingHead], area: Area) -> dict[str, float]:
    """What part of an area each head of one throw serves best [m2], on cells of 0.5 m."""
    if not heads:
        return {}
    step_m = _step(area)
    x1, y1, x2, y2 = bounds(area.outline)
    cells = _inside(area, np.arange(x1 + step_m / 2, x2, step_m), np.arange(y1 + step_m / 2, y2, step_m))
    _, ratio = _distance_and_ratio(heads, cells)
    owner = ratio.argmin(axis=1)[np.isfinite(ratio.min(axis=1))]
    count = np.bincount(owner, minlength=len(heads)) * step_m**2
    return {head.id: float(size) for head, size in zip(heads, count, strict=True)}


def _distance_and_ratio(
    heads: Sequence[ReachingHead], points: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Distance [m], and distance over throw, infinite outside the arc. Points by heads."""
    distance, in_sight = distances(heads, points)
    throw = np.array([max(head.throw_m, 1e-6) for head in heads])
    return distance, np.where(in_sight, distance / throw[None, :], np.inf)


def distances(
    heads: Sequence[ReachingHead], points: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Distance of each point to each head [m], and whether the head's arc faces it. Points by heads."""
    at = np.array([head.at for head in heads])
    offset = points[:, None, :] - at[None, :, :]
    distance = np.hypot(offset[..., 0], offset[..., 1])
    start = np.array([head.from_deg for head in heads])
    sweep = np.array([head.sweep_deg for head in heads])
    bearing = np.degrees(np.arctan2(offset[..., 0], offset[..., 1]))
    facing = np.mod(bearing - start + 1e-6, 360) <= sweep + 2e-6
    return distance, facing | (distance < 1e-6) | (sweep >= 360)


def sample_points(area: Area) -> NDArray[np.float64]:
    """Points of a lattice inside an area, points along its edges, and its corners."""
    step_m = _step(area)
    x1, y1, x2, y2 = bounds(area.outline)
    lattice = _inside(area, np.arange(x1 + step_m, x2, step_m), np.arange(y1 + step_m, y2, step_m))
    edge = [point for ring in rings_of(area) for side in edges(ring) for point in _along(*side, step_m)]
    return np.concatenate([lattice, np.array(edge, dtype=float)])


def _step(area: Area) -> float:
    """Half a metre, or more where an area is huge: at most 20,000 points."""
    x1, y1, x2, y2 = bounds(area.outline)
    return max(SAMPLE_M, math.sqrt((x2 - x1) * (y2 - y1) / 20_000))


def _inside(area: Area, xs: NDArray[np.float64], ys: NDArray[np.float64]) -> NDArray[np.float64]:
    x, y = (axis.ravel() for axis in np.meshgrid(xs, ys))
    polygon = shapely.Polygon(area.outline, area.holes)
    shapely.prepare(polygon)
    inside = shapely.contains_xy(polygon, x, y)
    return np.column_stack([x[inside], y[inside]])


def _along(start: XY, end: XY, step_m: float) -> list[XY]:
    """Points from the start on, not farther apart than the step; the end belongs to the next side."""
    count = max(1, math.ceil(math.dist(start, end) / step_m))
    dx, dy = (end[0] - start[0]) / count, (end[1] - start[1]) / count
    return [(start[0] + place * dx, start[1] + place * dy) for place in range(count)]


def shadow_m2(heads: Sequence[ReachingHead], area: Area) -> float:
    """What none of the heads that look around can see of an area [m2]."""
    seen = [shapely.Polygon(visible_polygon(rings_of(area), head.at)).buffer(0) for head in heads]
    whole = shapely.Polygon(area.outline, area.holes)
    return float(whole.difference(shapely.union_all(seen).buffer(0.001)).area)


def nearest_edge_m(head: ReachingHead, area: Area) -> float:
    """Distance from a head to the nearest edge of its area [m]."""
    origin = inside_point(rings_of(area), head.at)
    edge = shapely.Polygon(area.outline, area.holes).boundary
    return float(edge.distance(shapely.Point(origin)))


def nearest_neighbours(heads: Sequence[ReachingHead]) -> Mapping[str, tuple[str, float]]:
    """The nearest other head of each, and its distance [m]."""
    if len(heads) < 2:
        return {}
    at = np.array([head.at for head in heads])
    apart = np.hypot(*(at[:, None, :] - at[None, :, :]).transpose(2, 0, 1))
    np.fill_diagonal(apart, np.inf)
    nearest = apart.argmin(axis=1)
    return {
        head.id: (heads[int(other)].id, float(apart[place, other]))
        for place, (head, other) in enumerate(zip(heads, nearest, strict=True))
    }
