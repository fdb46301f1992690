"""The ground that one head wets, as polygons in site metres."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from shapely import LineString, Point, Polygon, affinity, make_valid

from design.document import Area, HeadNode
from design.report import XY, CheckReport
from design.visibility import throw_by_bearing
from hydraulics.catalogue import DripPart, HeadPart, Part

_STEP_DEG = 5.0
_HAIR_M = 1e-6
_NUDGE_DEG = 0.01  # a ray either side of each corner, so that shadows have sharp edges


def point_at(centre: XY, bearing_deg: float, distance_m: float) -> XY:
    """The point at that bearing, clockwise from north, and distance."""
    angle = radians(bearing_deg)
    return centre[0] + distance_m * sin(angle), centre[1] + distance_m * cos(angle)


def sector(centre: XY, radius_m: float, from_deg: float, sweep_deg: float) -> tuple[XY, ...]:
    """Ring of a circular sector, or of a whole circle when the sweep is 360."""
    steps = max(2, round(sweep_deg / _STEP_DEG))
    whole = sweep_deg >= 360
    count = steps if whole else steps + 1
    arc = [point_at(centre, from_deg + sweep_deg * i / steps, radius_m) for i in range(count)]
    return tuple(arc) if whole else (centre, *arc)


def area_polygon(area: Area) -> Polygon:
    """The area as a valid polygon; the largest piece when its outline crosses itself."""
    shape = make_valid(Polygon(area.outline, area.holes))
    pieces = [p for p in getattr(shape, "geoms", [shape]) if isinstance(p, Polygon)]
    return max(pieces, key=lambda p: p.area, default=Polygon())


def seen_ring(centre: XY, area: Polygon, throw_m: float) -> tuple[XY, ...]:
    """What a head sees of its area, out to its throw; empty if it stands outside."""
    if area.is_empty or not area.buffer(0.05).covers(Point(centre)):
        return ()
    corners = [c for ring in (area.exterior, *area.interiors) for c in ring.coords]
    bearings = {float(b) for b in range(0, 360, int(_STEP_DEG))}
    for x, y in corners:
        bearing = degrees(atan2(x - centre[0], y - centre[1]))
        bearings |= {(bearing + nudge) % 360 for nudge in (-_NUDGE_DEG, 0, _NUDGE_DEG)}
    order = sorted(bearings)
    reaches = throw_by_bearing(_open_rings(area), centre, order).tolist()
    return tuple(point_at(centre, b, min(r, throw_m)) for b, r in zip(order, reaches, strict=True))


def _open_rings(area: Polygon) -> list[list[XY]]:
    """Outline and holes, without the closing point that repeats the first."""
    return [list(ring.coords)[:-1] for ring in (area.exterior, *area.interiors)]


def drip_rows(area: Polygon, part: DripPart) -> tuple[tuple[XY, ...], ...]:
    """Rows of drip line along the longer side of the area, at the part's spacing."""
    # A hair wider, so that the outermost rows lie inside in floating point too.
    inner = area.buffer(-part.edge_margin_m + _HAIR_M)
    if inner.is_empty:
        return ()
    angle = _long_side_deg(inner)
    origin = inner.centroid
    turned = affinity.rotate(inner, -angle, origin=origin)
    west, south, east, north = turned.bounds
    count = int((north - south) / part.row_spacing_m + _HAIR_M) + 1
    first = (north + south - (count - 1) * part.row_spacing_m) / 2  # equal rests at both sides
    heights = [first + i * part.row_spacing_m for i in range(min(count, 200))]
    rows = [turned.intersection(LineString([(west - 1, y), (east + 1, y)])) for y in heights]
    lines = [p for row in rows for p in getattr(row, "geoms", [row]) if isinstance(p, LineString)]
    back = (affinity.rotate(line, angle, origin=origin) for line in lines if line.length > 0)
    return tuple(tuple((x, y) for x, y in line.coords) for line in back)


def _long_side_deg(area: Polygon) -> float:
    box = area.minimum_rotated_rectangle
    if not isinstance(box, Polygon):
        return 0.0
    corners = list(box.exterior.coords)
    sides = pairwise(corners)
    (x0, y0), (x1, y1) = max(sides, key=lambda s: hypot(s[1][0] - s[0][0], s[1][1] - s[0][1]))
    return degrees(atan2(y1 - y0, x1 - x0))


def wet_radius_m(head: HeadNode, part: Part | None, report: CheckReport | None) -> float | None:
    """Least solved throw over all cases, no more than the reach it is set to."""
    results = [h for case in report.cases for h in case.heads if h.id == head.id] if report else []
    if results:
        return min(min(h.throw_m, h.reach_m) for h in results)
    if head.reach_m is not None:
        return head.reach_m
    return part.rows[0].throw_m if isinstance(part, HeadPart) else None


def area_of(head: HeadNode, areas: Sequence[Area]) -> Area | None:
    """The area that it names, or else the one that it stands in."""
    for area in areas:
        if area.id == head.area:
            return area
    inside = (a for a in areas if area_polygon(a).buffer(0.05).covers(Point(head.at)))
    return next(inside, None) if head.area is None else None


def wet_ring(head: HeadNode, part: Part | None, radius_m: float, areas: Sequence[Area]) -> tuple[XY, ...]:
    """Outline of what a sprinkler wets."""
    pattern = part.pattern if isinstance(part, HeadPart) else "fixed_arc"
    if pattern == "by_bearing":
        area = area_of(head, areas)
        seen = seen_ring(head.at, area_polygon(area), radius_m) if area else ()
        return seen or sector(head.at, radius_m, 0, 360)
    if pattern == "full_circle":
        return sector(head.at, radius_m, 0, 360)
    return sector(head.at, radius_m, head.from_deg, head.sweep_deg)
