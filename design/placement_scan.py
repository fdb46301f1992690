"""The place of one head that throws as far as each bearing asks for."""

import math
from collections.abc import Sequence
from itertools import pairwise

import shapely

from design.document import Area
from design.geometry import XY
from design.reach import shadow_m2
from design.reaching import ReachingHead, rings_of
from design.visibility import inside_point
from hydraulics.catalogue import HeadPart

FAR_M = 20_000.0
TRIES = 15  # looked at are so many by so many places, where none sees everything
MOST_CORNERS = 120  # of one outline
NARROW = 60  # steps of halving a line: to less than a millimetre


def scanning_place(area: Area, part: HeadPart) -> tuple[XY, tuple[str, ...]]:
    """Where the head stands, and what is doubtful about it."""
    area = area.model_copy(
        update={"outline": _thinned(area.outline), "holes": [_thinned(hole) for hole in area.holes]}
    )
    kernel = seeing_all(area)
    doubts = []
    if kernel.is_empty:
        at, hidden_m2 = _least_shadow(area)
        doubts.append(
            f"No one place sees all of this area: {hidden_m2:.1f} m² stay behind a corner. Use two heads."
        )
    else:
        at = nearest_to_farthest(kernel, area.outline)
    farthest_m = max(math.dist(at, corner) for corner in area.outline)
    most_m = max(row.throw_m for row in part.rows)
    if farthest_m > most_m:
        doubts.append(
            f"Its farthest corner is {farthest_m:.2f} m away, and it throws {most_m:.2f} m at the most."
        )
    edge_m = shapely.Polygon(area.outline, area.holes).boundary.distance(shapely.Point(at))
    if edge_m < part.min_throw_m:
        doubts.append(
            f"The nearest edge is {edge_m:.2f} m away, less than the {part.min_throw_m:.2f} m that it throws"
            " at the least."
        )
    return at, tuple(doubts)


def _thinned(ring: list[XY]) -> list[XY]:
    """The ring with as few corners as anybody looks past one by one."""
    points, tolerance_m = ring, 0.01
    while len(points) > MOST_CORNERS:
        smooth = shapely.Polygon(ring).simplify(tolerance_m)
        points = [(float(x), float(y)) for x, y in shapely.get_coordinates(smooth.exterior)[:-1]]
        tolerance_m *= 2
    return points


def seeing_all(area: Area) -> shapely.Geometry:
    """The places from which the whole area is seen; empty where there is none, or the area has a hole."""
    found: shapely.Geometry = shapely.Polygon(area.outline)
    if area.holes:
        return shapely.Polygon()
    ring = shapely.get_coordinates(shapely.orient_polygons(found).exterior)
    for (x1, y1), (x2, y2) in pairwise(ring):
        length = math.hypot(x2 - x1, y2 - y1)
        if length > 0 and not found.is_empty:
            found = found.intersection(_left_of((x1, y1), ((x2 - x1) / length, (y2 - y1) / length)))
    return found if found.area > 1e-9 else shapely.Polygon()


def _left_of(at: XY, way: XY) -> shapely.Polygon:
    """Everything to the left of a line, as far as anyone measures."""
    (x, y), (a, b) = at, way
    back, on = (x - a * FAR_M, y - b * FAR_M), (x + a * FAR_M, y + b * FAR_M)
    return shapely.Polygon(
        [back, on, (on[0] - b * FAR_M, on[1] + a * FAR_M), (back[0] - b * FAR_M, back[1] + a * FAR_M)]
    )


def nearest_to_farthest(region: shapely.Geometry, corners: Sequence[XY]) -> XY:
    """The point of a convex region whose farthest corner is nearest.

    It is the centre of the smallest circle around the corners, or lies on the region's edge:
    the distance to the farthest corner is a convex function.
    """
    circle = shapely.minimum_bounding_circle(shapely.multipoints(corners))
    centre = circle.centroid
    if region.covers(centre):
        return (centre.x, centre.y)
    ring = [(float(x), float(y)) for x, y in shapely.get_coordinates(region)]
    found = [_on_line(start, end, corners) for start, end in pairwise(ring)]
    return min(found, key=lambda at: _farthest_m(at, corners))


def _on_line(start: XY, end: XY, corners: Sequence[XY]) -> XY:
    """By thirds, since along a line the function falls and then rises."""
    low, high = 0.0, 1.0
    for _ in range(NARROW):
        one, two = low + (high - low) / 3, high - (high - low) / 3
        if _farthest_m(_between(start, end, one), corners) < _farthest_m(_between(start, end, two), corners):
            high = two
        else:
            low = one
    return _between(start, end, (low + high) / 2)


def _between(start: XY, end: XY, share: float) -> XY:
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def _farthest_m(at: XY, corners: Sequence[XY]) -> float:
    return max(math.dist(at, corner) for corner in corners)


def _least_shadow(area: Area) -> tuple[XY, float]:
    """Of places all over the area the one that leaves least hidden, then has its farthest corner nearest."""
    shape = shapely.Polygon(area.outline, area.holes)
    west, south, east, north = shape.bounds
    spots = [
        (west + (east - west) * (i + 0.5) / TRIES, south + (north - south) * (j + 0.5) / TRIES)
        for i in range(TRIES)
        for j in range(TRIES)
    ]
    inside = [at for at in spots if shape.contains(shapely.Point(at))]
    inside = inside or [inside_point(rings_of(area), area.outline[0])]
    judged = [(round(_hidden_m2(at, area), 2), _farthest_m(at, area.outline), at) for at in inside]
    hidden_m2, _, at = min(judged)
    return at, hidden_m2


def _hidden_m2(at: XY, area: Area) -> float:
    return shadow_m2([ReachingHead("", at, "by_bearing", math.inf)], area)
