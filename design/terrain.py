"""The lie of the ground between the levels: low spots, contours, slopes.

The surface is that of ``design.levels``: linear in the Delaunay triangles of the levels, and only
as far out as they reach. What lies outside them is not judged here.
"""

import heapq
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import shapely

from design.document import Level
from design.geometry import XY, in_ring, ring_area
from design.levels import Levels, Triangle

# common practice, no source: shallower than a hand level can tell
LEAST_DEPTH_M = 0.01
MOST_CONTOURS = 400
_SAME_M = 1e-9
# a triangle that an outline only grazes says nothing of its slope
_GRAZED_M2 = 1e-4


@dataclass(frozen=True)
class LowSpot:
    """A hollow, where water would stand ``depth_m`` deep over ``area_m2`` before it ran off; or a low
    place on the edge of an area, where pipes would empty through the lowest head (depth 0, no area).

    ``below_m`` is how far the highest ground of the area lies above it.
    """

    kind: Literal["hollow", "edge"]
    at: XY
    z_m: float
    depth_m: float
    below_m: float
    area_m2: float | None = None


@dataclass(frozen=True)
class Contour:
    z_m: float
    lines: tuple[tuple[XY, ...], ...]


@dataclass(frozen=True)
class AreaTerrain:
    """What the levels say of one area. ``share`` of it lies between levels; the rest is not judged."""

    lowest_m: float
    highest_m: float
    slope_pct: float
    share: float
    low_spots: tuple[LowSpot, ...]

    @property
    def range_m(self) -> float:
        return self.highest_m - self.lowest_m


class Terrain:
    """The triangles of the levels with their heights."""

    def __init__(self, levels: Sequence[Level]) -> None:
        self.levels = Levels(levels)
        self.heights: dict[XY, float] = {level.at: level.z_m for level in levels}
        self.triangles: list[Triangle] = self.levels.triangles

    @cached_property
    def neighbours(self) -> dict[XY, set[XY]]:
        found: dict[XY, set[XY]] = {at: set() for triangle in self.triangles for at in triangle}
        for triangle in self.triangles:
            for corner in triangle:
                found[corner].update(other for other in triangle if other != corner)
        return found

    @cached_property
    def rim(self) -> set[XY]:
        """The levels on the outer edge: from there water may leave to where nobody measured."""
        sides: dict[frozenset[XY], int] = {}
        for a, b, c in self.triangles:
            for side in ((a, b), (b, c), (c, a)):
                key = frozenset(side)
                sides[key] = sides.get(key, 0) + 1
        return {corner for side, count in sides.items() if count == 1 for corner in side}

    @cached_property
    def water(self) -> dict[XY, float]:
        """How high water would stand at each level: the lowest pass over which it could leave [m].

        Flooding from the rim inwards, the lowest first; on a surface of triangles a lowest way
        runs along their sides.
        """
        filled: dict[XY, float] = {}
        waiting = [(self.heights[at], at) for at in self.rim]
        heapq.heapify(waiting)
        while waiting:
            height, at = heapq.heappop(waiting)
            if at in filled:
                continue
            filled[at] = height
            for other in self.neighbours[at]:
                if other not in filled:
                    heapq.heappush(waiting, (max(height, self.heights[other]), other))
        return filled

    def ponds(self) -> list[set[XY]]:
        """Levels under water, those of one pond together."""
        wet = {at for at, height in self.water.items() if height > self.heights[at] + _SAME_M}
        found = []
        while wet:
            pond, waiting = set(), [wet.pop()]
            while waiting:
                at = waiting.pop()
                pond.add(at)
                more = self.neighbours[at] & wet
                wet -= more
                waiting += more
            found.append(pond)
        return found


def low_spots(
    levels: Sequence[Level], outline: Sequence[XY], least_depth_m: float = LEAST_DEPTH_M
) -> list[LowSpot]:
    """Hollows deeper than ``least_depth_m`` inside the outline, and low places on its edge; deepest first."""
    terrain = Terrain(levels)
    ground = _between_levels(terrain, outline)
    if ground.is_empty:
        return []
    highest_m = max(height for _, height in _corners(terrain, ground))
    hollows = [
        spot
        for pond in terrain.ponds()
        if (spot := _hollow(terrain, pond, outline, highest_m)) and spot.depth_m >= least_depth_m - _SAME_M
    ]
    edges = [spot for spot in _low_edges(terrain, ground, highest_m) if spot.below_m >= least_depth_m]
    under = {spot.at for spot in hollows}
    return sorted(hollows, key=lambda spot: -spot.depth_m) + sorted(
        (spot for spot in edges if spot.at not in under), key=lambda spot: spot.z_m
    )


def contours(levels: Sequence[Level], step_m: float) -> list[Contour]:
    """Lines of equal height at whole multiples of the step, lowest first.

    Raises ValueError for a step that is not above zero or gives more than ``MOST_CONTOURS`` lines.
    """
    terrain = Terrain(levels)
    if not terrain.triangles:
        return []
    low, high = min(terrain.heights.values()), max(terrain.heights.values())
    if not step_m > 0 or (high - low) / step_m > MOST_CONTOURS:
        raise ValueError(f"A step of {step_m:g} m draws no contours of {high - low:.2f} m.")
    found = []
    for number in range(math.ceil(low / step_m - 1e-9), math.floor(high / step_m + 1e-9) + 1):
        pieces = [piece for one in terrain.triangles if (piece := _cut(terrain, one, number * step_m))]
        lines = shapely.get_parts(shapely.line_merge(shapely.multilinestrings(pieces))) if pieces else []
        paths = (tuple((x, y) for x, y in shapely.get_coordinates(line).tolist()) for line in lines)
        if drawn := tuple(path for path in paths if len(path) > 1):
            found.append(Contour(number * step_m, drawn))
    return found


def slope_pct(levels: Sequence[Level], outline: Sequence[XY]) -> float:
    """Steepest slope inside the outline [%], over whole triangles; 0 where no three levels reach it."""
    return _steepest(Terrain(levels), outline)


def describe_area(levels: Sequence[Level], outline: Sequence[XY]) -> AreaTerrain | None:
    """Range of height, steepest slope and low spots of an area; none where levels do not reach it."""
    terrain = Terrain(levels)
    ground = _between_levels(terrain, outline)
    if ground.is_empty:
        return None
    heights = [height for _, height in _corners(terrain, ground)]
    return AreaTerrain(
        min(heights),
        max(heights),
        _steepest(terrain, outline),
        min(1.0, ground.area / ring_area(outline)),
        tuple(low_spots(levels, outline)),
    )


def outline_between(levels: Sequence[Level]) -> tuple[XY, ...]:
    """The outer edge of the ground between the levels; empty without a triangle."""
    if not Terrain(levels).triangles:
        return ()
    return tuple(_points(shapely.convex_hull(shapely.MultiPoint([level.at for level in levels])))[:-1])


def step_for(levels: Sequence[Level], lines: int = 8) -> float:
    """A round step between contours that gives about so many lines [m]."""
    heights = [level.z_m for level in levels]
    wanted = max((max(heights) - min(heights)) / lines, 0.01) if heights else 0.1
    power = 10 ** math.floor(math.log10(wanted) + 1e-9)
    return float(next(m * power for m in (1, 2, 5, 10) if m * power >= wanted - 1e-9))


def _between_levels(terrain: Terrain, outline: Sequence[XY]) -> shapely.Geometry:
    """The part of the area that the triangles cover."""
    if len(outline) < 3 or not terrain.triangles:
        return shapely.Polygon()
    area = shapely.make_valid(shapely.Polygon(outline))
    common = shapely.intersection(area, shapely.union_all([shapely.Polygon(t) for t in terrain.triangles]))
    parts = [part for part in shapely.get_parts(common) if part.geom_type == "Polygon"]
    return shapely.MultiPolygon([part for part in parts if part.area > _GRAZED_M2])


def _corners(terrain: Terrain, ground: shapely.Geometry) -> list[tuple[XY, float]]:
    """All places where the height of the ground can be least or greatest: levels, corners, crossings."""
    inside = [at for at in terrain.heights if shapely.intersects_xy(ground, *at)]
    on_edge = [at for ring in _edge_rings(terrain, ground) for at in ring]
    return [(at, terrain.levels.at(at)) for at in (*inside, *on_edge)]


def _edge_rings(terrain: Terrain, ground: shapely.Geometry) -> Iterator[list[XY]]:
    """The outer edge of each part, with a point wherever it crosses the side of a triangle."""
    sides = shapely.multilinestrings([(*t, t[0]) for t in terrain.triangles])
    for part in shapely.get_parts(ground):
        ring = shapely.get_exterior_ring(part)
        places = {_rounded(at): at for at in _points(ring)[:-1]}
        for at in _points(shapely.intersection(ring, sides)):
            places.setdefault(_rounded(at), at)
        yield sorted(places.values(), key=lambda at: shapely.line_locate_point(ring, shapely.Point(at)))


def _low_edges(terrain: Terrain, ground: shapely.Geometry, highest_m: float) -> Iterator[LowSpot]:
    """Places on the edge with higher ground to both sides along it and, for a level, inwards too."""
    for ring in _edge_rings(terrain, ground):
        heights = [terrain.levels.at(at) for at in ring]
        for place, (at, z_m) in enumerate(zip(ring, heights, strict=True)):
            before, after = heights[place - 1], heights[(place + 1) % len(ring)]
            if before < z_m - _SAME_M or after <= z_m + _SAME_M:
                continue  # of a flat stretch only its last place counts
            if _comes_down_to_it(ring, heights, place) and not _falls_inwards(terrain, ground, at, z_m):
                yield LowSpot("edge", at, z_m, 0.0, highest_m - z_m)


def _comes_down_to_it(ring: list[XY], heights: list[float], place: int) -> bool:
    """Whether the edge falls towards this place, past a stretch that is level with it."""
    for back in range(1, len(ring)):
        before = heights[place - back]
        if abs(before - heights[place]) > _SAME_M:
            return before > heights[place]
    return False


def _falls_inwards(terrain: Terrain, ground: shapely.Geometry, at: XY, z_m: float) -> bool:
    """Whether ground a hand's breadth inwards lies lower; tried all round."""
    for turn in range(16):
        angle = math.tau * turn / 16
        near = (at[0] + 0.05 * math.cos(angle), at[1] + 0.05 * math.sin(angle))
        if shapely.intersects_xy(ground, *near) and terrain.levels.at(near) < z_m - 1e-6:
            return True
    return False


def _hollow(terrain: Terrain, pond: set[XY], outline: Sequence[XY], highest_m: float) -> LowSpot | None:
    at = min(pond, key=lambda one: (terrain.heights[one], one))
    if not in_ring(at, outline):
        return None
    water_m, z_m = terrain.water[at], terrain.heights[at]
    around = [triangle for triangle in terrain.triangles if any(corner in pond for corner in triangle)]
    area_m2 = sum(ring_area(ring) for one in around if len(ring := _under(terrain, one, water_m)) > 2)
    return LowSpot("hollow", at, z_m, water_m - z_m, highest_m - z_m, area_m2)


def _under(terrain: Terrain, triangle: Triangle, water_m: float) -> list[XY]:
    """The part of a triangle that lies below the water."""
    ring: list[XY] = []
    for a, b in zip(triangle, (*triangle[1:], triangle[0]), strict=True):
        z_a, z_b = terrain.heights[a], terrain.heights[b]
        if z_a <= water_m:
            ring.append(a)
        if (z_a <= water_m) != (z_b <= water_m):
            ring.append(_between(a, b, (water_m - z_a) / (z_b - z_a)))
    return ring


def _cut(terrain: Terrain, triangle: Triangle, z_m: float) -> tuple[XY, XY] | None:
    """Where a height cuts the triangle; a corner at that very height counts as above it."""
    ends = []
    for a, b in zip(triangle, (*triangle[1:], triangle[0]), strict=True):
        low, high = sorted((a, b), key=lambda at: (terrain.heights[at], at))
        z_low, z_high = terrain.heights[low], terrain.heights[high]
        if z_low < z_m <= z_high:
            ends.append(_between(low, high, (z_m - z_low) / (z_high - z_low)))
    return (ends[0], ends[1]) if len(ends) == 2 and ends[0] != ends[1] else None


def _steepest(terrain: Terrain, outline: Sequence[XY]) -> float:
    if len(outline) < 3:
        return 0.0
    area = shapely.make_valid(shapely.Polygon(outline))
    return max(
        (
            _slope(terrain, triangle)
            for triangle in terrain.triangles
            if shapely.intersection(area, shapely.Polygon(triangle)).area > _GRAZED_M2
        ),
        default=0.0,
    )


def _slope(terrain: Terrain, triangle: Triangle) -> float:
    """Slope of the plane through the three corners [%]."""
    (x0, y0), (x1, y1), (x2, y2) = triangle
    z0, z1, z2 = (terrain.heights[corner] for corner in triangle)
    whole = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
    east = ((z1 - z0) * (y2 - y0) - (z2 - z0) * (y1 - y0)) / whole
    north = ((z2 - z0) * (x1 - x0) - (z1 - z0) * (x2 - x0)) / whole
    return 100 * math.hypot(east, north)


def _between(a: XY, b: XY, share: float) -> XY:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def _points(geometry: shapely.Geometry) -> list[XY]:
    return [(x, y) for x, y in shapely.get_coordinates(geometry).tolist()]


def _rounded(at: XY) -> XY:
    return (round(at[0], 6), round(at[1], 6))
