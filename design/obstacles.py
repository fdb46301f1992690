"""What a trench can meet, as polygons: surfaces, soils, and the zones around buried services."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from design.document import Ground
from design.geometry import XY, distance_to_path, distance_to_rings, in_rings
from hydraulics.limits import Limits

# common practice, no source: dug by hand on each side of a crossing even where no margin is set
CROSSING_MARGIN_M = 0.3
# half a spade; nearer to its edge a trench runs along a surface and not through it
ALONG_EDGE_M = 0.01
ROWS_AT_ONCE = 256  # keeps the arrays of pieces by sides small


@dataclass(frozen=True)
class Obstacle:
    """A region: ``kind`` is that of the surface or service, or ``soil``."""

    id: str
    label: str
    kind: str
    rings: tuple[tuple[XY, ...], ...]
    depth_m: float | None = None
    is_service: bool = False
    soil: str = ""
    holds_supply: bool = False  # a building in which the pipes begin


@dataclass(frozen=True)
class Obstacles:
    """All regions, with their sides as one array of (x1, y1, x2, y2)."""

    regions: tuple[Obstacle, ...]
    sides: NDArray[np.float64]
    slices: tuple[slice, ...]
    areas: tuple[Obstacle, ...]

    def insides(self, points: NDArray[np.float64]) -> list[list[Obstacle]]:
        """For each point the regions that hold it."""
        found: list[list[Obstacle]] = [[] for _ in points]
        if not len(self.sides):
            return found
        for first in range(0, len(points), ROWS_AT_ONCE):
            for row, region in np.argwhere(self._holding(points[first : first + ROWS_AT_ONCE])):
                place = first + row
                point = (float(points[place, 0]), float(points[place, 1]))
                if not _on_edge(point, self.regions[region]):
                    found[place].append(self.regions[region])
        return found

    def _holding(self, points: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Points by regions: a ray from the point crosses the sides of the region an odd number of times."""
        x, y = points[:, None, 0], points[:, None, 1]
        x1, y1, x2, y2 = (self.sides[None, :, place] for place in range(4))
        spans = (y1 > y) != (y2 > y)
        rise = np.where(y2 == y1, 1.0, y2 - y1)
        crossed = spans & (x < (x2 - x1) * (y - y1) / rise + x1)
        starts = [part.start for part in self.slices]
        odd: NDArray[np.bool_] = np.add.reduceat(crossed, starts, axis=1, dtype=np.int64) % 2 == 1
        return odd

    def soil_at(self, point: XY, inside: Sequence[Obstacle]) -> str:
        """Soil of the area that holds the point, else of the nearest area; empty without areas."""
        for region in inside:
            if region.soil:
                return region.soil
        if not self.areas:
            return ""
        if len({area.soil for area in self.areas}) == 1:
            return self.areas[0].soil
        return min(self.areas, key=lambda area: distance_to_rings(point, area.rings)).soil


def _on_edge(point: XY, region: Obstacle) -> bool:
    """Whether a trench runs along the very edge there: a wall or a kerb, which it does not enter."""
    if region.is_service or region.soil:
        return False
    return any(distance_to_path(point, (*ring, ring[0])) < ALONG_EDGE_M for ring in region.rings)


def build_obstacles(ground: Ground, limits: Limits, supply_at: XY | None = None) -> Obstacles:
    """Regions of the ground; future works and services widened by their margins."""
    areas = [
        Obstacle(area.id, area.label, "soil", (tuple(area.outline), *map(tuple, area.holes)), soil=area.soil)
        for area in ground.areas
    ]
    regions = [*areas] if len({area.soil for area in areas}) > 1 else []
    for surface in ground.surfaces:
        rings: tuple[tuple[XY, ...], ...] = (tuple(surface.outline),)
        if surface.kind == "future_work" and limits.future_works_margin_m > 0:
            rings = _widened(shapely.Polygon(surface.outline), limits.future_works_margin_m)
        holds_supply = supply_at is not None and surface.kind == "building" and in_rings(supply_at, rings)
        regions.append(Obstacle(surface.id, surface.label, surface.kind, rings, holds_supply=holds_supply))
    margin = max(limits.hand_dig_margin_m, CROSSING_MARGIN_M)
    for service in ground.services:
        rings = _widened(shapely.LineString(service.path), margin)
        regions.append(Obstacle(service.id, service.label, service.kind, rings, service.depth_m, True))
    return _arrays(tuple(regions), tuple(areas))


def _widened(shape: shapely.Geometry, margin_m: float) -> tuple[tuple[XY, ...], ...]:
    wide = shape.buffer(margin_m, quad_segs=6)
    return (tuple(wide.exterior.coords[:-1]), *(tuple(ring.coords[:-1]) for ring in wide.interiors))


def _arrays(regions: tuple[Obstacle, ...], areas: tuple[Obstacle, ...]) -> Obstacles:
    sides: list[tuple[float, float, float, float]] = []
    slices = []
    for region in regions:
        first = len(sides)
        for ring in region.rings:
            sides += [(*a, *b) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]
        slices.append(slice(first, len(sides)))
    return Obstacles(regions, np.array(sides, dtype=float).reshape(-1, 4), tuple(slices), areas)


def cut_by_sides(
    start: NDArray[np.float64], end: NDArray[np.float64], sides: NDArray[np.float64]
) -> list[list[float]]:
    """For each segment the shares (0 to 1, both included) at which the sides cut it."""
    cuts: list[list[float]] = [[0.0, 1.0] for _ in start]
    if len(sides):
        for first in range(0, len(start), ROWS_AT_ONCE):
            rows = slice(first, first + ROWS_AT_ONCE)
            _add_cuts(start[rows], end[rows], sides, cuts[rows])
    return [sorted(shares) for shares in cuts]


def _add_cuts(
    start: NDArray[np.float64], end: NDArray[np.float64], sides: NDArray[np.float64], cuts: list[list[float]]
) -> None:
    along = (end - start)[:, None, :]
    side = (sides[:, 2:] - sides[:, :2])[None, :, :]
    offset = sides[None, :, :2] - start[:, None, :]
    cross = along[..., 0] * side[..., 1] - along[..., 1] * side[..., 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        mine = (offset[..., 0] * side[..., 1] - offset[..., 1] * side[..., 0]) / cross
        other = (offset[..., 0] * along[..., 1] - offset[..., 1] * along[..., 0]) / cross
    hit = (np.abs(cross) > 1e-12) & (mine > 0) & (mine < 1) & (other >= 0) & (other <= 1)
    for segment, crossed in np.argwhere(hit):
        cuts[segment].append(float(mine[segment, crossed]))
