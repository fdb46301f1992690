"""Drip line in rows over an area: rows, emitters, metres and flow."""

import math
from dataclasses import dataclass

import shapely

from design.document import Area
from design.geometry import XY, Rings
from hydraulics.catalogue import DripPart

# Binary floats make 2.8 / 0.4 a little less than 7; a row is not lost to that.
TOLERANCE = 1e-6


@dataclass(frozen=True)
class DripLayout:
    """Rows along the longer side; each as the pieces that lie inside the area."""

    rows: tuple[tuple[tuple[XY, XY], ...], ...]
    emitters: int
    length_m: float
    flow_lpm: float
    mm_per_hour: float  # of one emitter over the rectangle that it serves


def lay_drip(area: Area, part: DripPart) -> DripLayout:
    """Rows of drip line at the part's spacing, the outer ones its margin from the long edges.

    Emitters per piece of row: its length over their spacing, rounded down.
    """
    polygon = shapely.Polygon(area.outline, area.holes)
    origin, along, width_m = _frame(polygon)
    local = [[_to_local(point, origin, along) for point in ring] for ring in (area.outline, *area.holes)]
    rows = tuple(
        tuple(
            (_to_site((a, offset), origin, along), _to_site((b, offset), origin, along))
            for a, b in row_pieces(local, offset)
        )
        for offset in row_offsets(width_m, part)
    )
    lengths = [math.dist(a, b) for row in rows for a, b in row]
    emitters = sum(math.floor(length / part.emitter_spacing_m + TOLERANCE) for length in lengths)
    rate = part.emitter_lph / (part.emitter_spacing_m * part.row_spacing_m)
    return DripLayout(rows, emitters, sum(lengths), emitters * part.emitter_lph / 60, rate)


def row_offsets(width_m: float, part: DripPart) -> list[float]:
    """Where the rows lie across a bed of that width [m]."""
    usable = width_m - 2 * part.edge_margin_m
    if usable < 0:
        return [width_m / 2]
    count = math.floor(usable / part.row_spacing_m + TOLERANCE) + 1
    spare = usable - (count - 1) * part.row_spacing_m
    return [part.edge_margin_m + spare / 2 + place * part.row_spacing_m for place in range(count)]


def row_pieces(rings: Rings, offset: float) -> list[tuple[float, float]]:
    """From and to along a row at that offset, inside the outline and outside its holes."""
    offset += 1e-9  # a row that runs exactly through a corner is counted once
    crossings = []
    for ring in rings:
        for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (y1 > offset) != (y2 > offset):
                crossings.append(x1 + (offset - y1) * (x2 - x1) / (y2 - y1))
    crossings.sort()
    return list(zip(crossings[::2], crossings[1::2], strict=True))


def _frame(polygon: shapely.Polygon) -> tuple[XY, XY, float]:
    """Corner of the smallest rectangle around the area, direction of its long side, its width."""
    corners = [(x, y) for x, y, *_ in shapely.oriented_envelope(polygon).exterior.coords[:4]]
    first, second, third = corners[0], corners[1], corners[2]
    if math.dist(first, second) < math.dist(second, third):
        first, second, third = second, third, corners[3]
    length = math.dist(first, second)
    along = ((second[0] - first[0]) / length, (second[1] - first[1]) / length)
    across = _to_local(third, first, along)[1]
    origin = first if across > 0 else corners[3] if first == corners[0] else corners[0]
    return origin, along, abs(across)


def _to_local(point: XY, origin: XY, along: XY) -> XY:
    dx, dy = point[0] - origin[0], point[1] - origin[1]
    return (dx * along[0] + dy * along[1], dy * along[0] - dx * along[1])


def _to_site(point: XY, origin: XY, along: XY) -> XY:
    return (
        origin[0] + point[0] * along[0] - point[1] * along[1],
        origin[1] + point[0] * along[1] + point[1] * along[0],
    )
