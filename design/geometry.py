"""Plane geometry in site metres, on plain tuples: fast for the few points that a plan has."""

import itertools
import math
from collections.abc import Iterable, Sequence

XY = tuple[float, float]
Rings = Sequence[Sequence[XY]]  # an outline, then its holes

# A trench is dug to centimetres; a millimetre tells two points apart.
GRID_M = 0.001


def path_length(path: Sequence[XY]) -> float:
    """Length of a polyline [m]."""
    if len(path) == 2:
        return math.dist(path[0], path[1])
    return sum(math.dist(a, b) for a, b in itertools.pairwise(path))


def snap(point: XY) -> XY:
    """The point on the 1 mm grid."""
    return (round(point[0], 3), round(point[1], 3))


def bearing_deg(start: XY, end: XY) -> float:
    """Bearing from one point to another [degrees clockwise from north, 0 to 360)."""
    return math.degrees(math.atan2(end[0] - start[0], end[1] - start[1])) % 360


def point_at(start: XY, bearing: float, distance_m: float) -> XY:
    """The point at a bearing [degrees clockwise from north] and a distance [m]."""
    angle = math.radians(bearing)
    return (start[0] + distance_m * math.sin(angle), start[1] + distance_m * math.cos(angle))


def in_arc(bearing: float, from_deg: float, sweep_deg: float) -> bool:
    """Whether a bearing lies in the arc, its two ends included."""
    return sweep_deg >= 360 or (bearing - from_deg + 1e-6) % 360 <= sweep_deg + 2e-6


def ring_area(ring: Sequence[XY]) -> float:
    """Area inside one ring [m2]; 0 where it has no corner yet."""
    total = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in edges(ring))
    return abs(total) / 2


def edges(ring: Sequence[XY]) -> Iterable[tuple[XY, XY]]:
    """The sides of a ring, the closing one included."""
    return zip(ring, (*ring[1:], *ring[:1]), strict=True)


def in_ring(point: XY, ring: Sequence[XY]) -> bool:
    """Whether the point lies inside the ring; on its line either answer may come."""
    x, y = point
    inside = False
    x1, y1 = ring[-1]
    for x2, y2 in ring:
        if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
            inside = not inside
        x1, y1 = x2, y2
    return inside


def in_rings(point: XY, rings: Rings) -> bool:
    """Whether the point lies inside the outline and outside its holes."""
    return in_ring(point, rings[0]) and not any(in_ring(point, hole) for hole in rings[1:])


def nearest_on_segment(point: XY, start: XY, end: XY) -> tuple[float, XY]:
    """Distance from a point to a segment [m] and the point of the segment nearest to it."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    along = 0.0 if square == 0 else ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square
    along = min(1.0, max(0.0, along))
    foot = (start[0] + along * dx, start[1] + along * dy)
    return math.dist(point, foot), foot


def distance_to_path(point: XY, path: Sequence[XY]) -> float:
    """Distance from a point to a polyline [m]."""
    return min(nearest_on_segment(point, a, b)[0] for a, b in itertools.pairwise(path))


def distance_to_rings(point: XY, rings: Rings) -> float:
    """Distance from a point to a region [m]; 0 inside it."""
    if in_rings(point, rings):
        return 0.0
    return min(distance_to_path(point, (*ring, ring[0])) for ring in rings)


def crossing_at(start: XY, end: XY, other_start: XY, other_end: XY) -> float | None:
    """Where along start-end (0 to 1) the other segment meets it; none if it does not, or is parallel."""
    ax, ay = end[0] - start[0], end[1] - start[1]
    bx, by = other_end[0] - other_start[0], other_end[1] - other_start[1]
    cross = ax * by - ay * bx
    if abs(cross) < 1e-12:
        return None
    cx, cy = other_start[0] - start[0], other_start[1] - start[1]
    along = (cx * by - cy * bx) / cross
    other = (cx * ay - cy * ax) / cross
    return along if -1e-9 <= along <= 1 + 1e-9 and -1e-9 <= other <= 1 + 1e-9 else None


def bounds(points: Iterable[XY], margin_m: float = 0.0) -> tuple[float, float, float, float]:
    """Least x, least y, largest x, largest y, widened by a margin."""
    xs, ys = zip(*points, strict=True)
    return (min(xs) - margin_m, min(ys) - margin_m, max(xs) + margin_m, max(ys) + margin_m)


def boxes_meet(one: tuple[float, float, float, float], two: tuple[float, float, float, float]) -> bool:
    return one[0] <= two[2] and two[0] <= one[2] and one[1] <= two[3] and two[1] <= one[3]
