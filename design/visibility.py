"""What a head can see of its area: first edges by bearing, the visible part, the shadows.

Corners are looked at exactly, never from a table of bearings: the nearest and the farthest
point of an outline as seen from inside are mostly corners.
"""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from design.geometry import XY, Rings, in_rings, nearest_on_segment

# How far a head on the very edge of its area is moved inside to look around.
NUDGE_M = 0.002
BESIDE_RAD = 1e-6
# rays by sides worked at once: 8 MB an array
MOST_HITS = 1_000_000


def side_array(rings: Rings) -> NDArray[np.float64]:
    """Sides of the outline and its holes as rows of (x1, y1, x2, y2)."""
    return np.array(
        [(*a, *b) for ring in rings for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)], dtype=float
    )


def ray_hits(
    sides: NDArray[np.float64], origin: XY, bearings_rad: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Distance [m] along each bearing to each side; infinite where it is not met. Rays by sides."""
    dx, dy = np.sin(bearings_rad)[:, None], np.cos(bearings_rad)[:, None]
    ex, ey = sides[:, 2] - sides[:, 0], sides[:, 3] - sides[:, 1]
    ox, oy = sides[:, 0] - origin[0], sides[:, 1] - origin[1]
    cross = dx * ey - dy * ex
    with np.errstate(divide="ignore", invalid="ignore"):
        distance = (ox * ey - oy * ex) / cross
        share = (ox * dy - oy * dx) / cross
    met = (np.abs(cross) > 1e-12) & (distance > 1e-9) & (share >= -1e-9) & (share <= 1 + 1e-9)
    return np.where(met, distance, np.inf)


def first_hits(
    sides: NDArray[np.float64], origin: XY, bearings_rad: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Distance [m] along each bearing to the first side; worked in slices, so that it stays small."""
    at_once = max(1, MOST_HITS // max(len(sides), 1))
    parts = [
        ray_hits(sides, origin, bearings_rad[first : first + at_once]).min(axis=1)
        for first in range(0, len(bearings_rad), at_once)
    ]
    return np.concatenate(parts) if parts else np.empty(0)


def rim_by_bearing(rings: Rings, origin: XY) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Bearings [degrees, rising in 0 to 360] and distance [m] to the first edge along each.

    Every degree, and each corner with a hair to either side, where the distance may jump.
    """
    sides = side_array(rings)
    origin = inside_point(rings, origin)
    to_corners = np.arctan2(sides[:, 0] - origin[0], sides[:, 1] - origin[1]) % (2 * math.pi)
    beside = [to_corners - BESIDE_RAD, to_corners, to_corners + BESIDE_RAD]
    rays = np.unique(np.concatenate([np.radians(np.arange(360.0)), *beside]))
    rays = rays[(rays >= 0) & (rays < 2 * math.pi)]
    return np.degrees(rays), first_hits(sides, origin, rays)


def throw_by_bearing(rings: Rings, origin: XY, bearings_deg: Sequence[float]) -> NDArray[np.float64]:
    """Distance from a head to the first edge, along each bearing [m]."""
    rays = np.radians(np.asarray(bearings_deg, dtype=float))
    return first_hits(side_array(rings), inside_point(rings, origin), rays)


def visible_polygon(rings: Rings, origin: XY) -> list[XY]:
    """Corners of what can be seen of the region from a point in it, by bearing."""
    sides = side_array(rings)
    origin = inside_point(rings, origin)
    to_corners = np.arctan2(sides[:, 0] - origin[0], sides[:, 1] - origin[1])
    rays = np.sort(np.concatenate([to_corners - BESIDE_RAD, to_corners, to_corners + BESIDE_RAD]))
    first = first_hits(sides, origin, rays)
    seen = np.isfinite(first)
    x = origin[0] + first[seen] * np.sin(rays[seen])
    y = origin[1] + first[seen] * np.cos(rays[seen])
    return list(zip(x.tolist(), y.tolist(), strict=True))


def shadow_bearings(rings: Rings, origin: XY) -> list[tuple[float, float]]:
    """Bearings [degrees] from and to which part of the region lies behind an edge."""
    sides = side_array(rings)
    origin = inside_point(rings, origin)
    corners = np.unique(np.round(np.arctan2(sides[:, 0] - origin[0], sides[:, 1] - origin[1]), 9))
    after = np.append(corners[1:], corners[0] + 2 * math.pi)
    hits = ray_hits(sides, origin, (corners + after) / 2)
    hidden = np.isfinite(hits).sum(axis=1) > 1
    spans: list[tuple[float, float]] = []
    for start, end in np.degrees(np.column_stack([corners, after]))[hidden].tolist():
        if spans and abs(spans[-1][1] - start) < 1e-6:
            spans[-1] = (spans[-1][0], end)
        else:
            spans.append((start, end))
    if len(spans) > 1 and abs(spans[-1][1] - spans[0][0] - 360) < 1e-6:
        spans[0] = (spans.pop()[0], spans[0][1])
    return [(start % 360, end % 360) for start, end in spans]


def inside_point(rings: Rings, point: XY) -> XY:
    """The point, or where it lies on the edge or beside the region, one just inside."""
    distance, foot = min(
        nearest_on_segment(point, a, b)
        for ring in rings
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
    if distance > NUDGE_M and in_rings(point, rings):
        return point
    around = [
        (foot[0] + NUDGE_M * math.cos(k * math.pi / 16), foot[1] + NUDGE_M * math.sin(k * math.pi / 16))
        for k in range(32)
    ]
    within = [near for near in around if in_rings(near, rings)]
    return within[len(within) // 2] if within else point


def nearer_part(polygon: Sequence[XY], here: XY, other: XY) -> list[XY]:
    """The part of a polygon that lies nearer to ``here`` than to ``other``."""
    nx, ny = other[0] - here[0], other[1] - here[1]
    limit = (other[0] ** 2 + other[1] ** 2 - here[0] ** 2 - here[1] ** 2) / 2
    kept: list[XY] = []
    for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        side_a, side_b = a[0] * nx + a[1] * ny - limit, b[0] * nx + b[1] * ny - limit
        if side_a <= 0:
            kept.append(a)
        if (side_a < 0 < side_b) or (side_b < 0 < side_a):
            share = side_a / (side_a - side_b)
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return kept
