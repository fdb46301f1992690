"""Heads for an area: where the first layout of a family would put them.

Fixed arcs: a head in each corner with the corner's own angle, along each edge at equal
spacing, and on the matching grid inside. A throw that varies with bearing: the one point that
sees every corner and has the farthest of them nearest. Drip: the inlet only.

Common practice, no source: spacing no more than the throw, so that each head reaches the next.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely

from design.document import Area
from design.drawing.wetting import sector
from design.geometry import XY, bearing_deg
from design.placement_scan import scanning_place
from design.problems import DesignError
from hydraulics.catalogue import DripPart, HeadPart

MOST_HEADS = 400
FULL = (0.0, 360.0)
# shares of the throw: an outline is smoothed by so much, a head nearer to another one is left out,
# and inside it stands no nearer to an edge
SMOOTH, TOO_NEAR, FROM_EDGE = 0.03, 0.3, 0.5
BARE_M2, OUTSIDE_PCT = 0.5, 15.0


class CannotPlace(DesignError):
    """No heads can be placed there; the message says why, as a sentence."""


@dataclass(frozen=True)
class PlacedHead:
    """``where`` is corner, edge, inside, middle or inlet."""

    at: XY
    from_deg: float
    sweep_deg: float
    where: str


@dataclass(frozen=True)
class Placement:
    """What was placed, and sentences on what is doubtful."""

    heads: tuple[PlacedHead, ...]
    throw_m: float
    doubts: tuple[str, ...]

    def sentence(self) -> str:
        """What was placed and what is doubtful, in metric units."""
        return " ".join((self._placed(), *self.doubts))

    def _placed(self) -> str:
        if self.heads[0].where == "inlet":
            return "The inlet of the drip line stands at the outline; the rows follow the area."
        if self.heads[0].where == "middle":
            return "One head, where it sees the whole area best."
        count = [sum(head.where == where for head in self.heads) for where in ("corner", "edge", "inside")]
        parts = [
            f"{number} {words}"
            for number, words in zip(count, ("in corners", "along edges", "inside"), strict=True)
            if number
        ]
        return f"{len(self.heads)} heads for a throw of {self.throw_m:.2f} m: {', '.join(parts)}."


def nominal_throw_m(part: HeadPart) -> float:
    """The throw that a first layout counts on: of the row in the middle."""
    rows = part.rising_rows
    return rows[len(rows) // 2].throw_m


def place_heads(
    area: Area, part: HeadPart | DripPart, spacing_m: float | None = None, near: XY | None = None
) -> Placement:
    """Heads of that part for an area, at most ``spacing_m`` apart; without one, as far as they throw.

    ``near`` is where the water comes from: an inlet stands at the corner next to it. Raises
    CannotPlace.
    """
    shape = shapely.Polygon(area.outline, area.holes)
    if not shape.is_valid or shape.area <= 0:
        raise CannotPlace("The outline of this area crosses itself; correct it first.")
    if isinstance(part, DripPart):
        corner = min(area.outline, key=lambda at: math.dist(at, near)) if near else area.outline[0]
        return Placement((PlacedHead(corner, *FULL, "inlet"),), 0.0, ())
    throw_m = nominal_throw_m(part)
    if part.pattern == "by_bearing":
        at, doubts = scanning_place(area, part)
        return Placement((PlacedHead(at, *FULL, "middle"),), throw_m, doubts)
    apart_m = spacing_m or throw_m
    if 2 * shape.length / apart_m + shape.area / apart_m**2 > MOST_HEADS:
        raise CannotPlace(f"That would take more than {MOST_HEADS} heads; choose a longer throw or spacing.")
    if part.pattern == "full_circle":
        heads = [PlacedHead(at, *FULL, "inside") for at in _grid(shape, apart_m, 0.0, centred=True)]
    else:
        heads = _fixed(shape, apart_m)
    if not heads:
        raise CannotPlace(f"This area is too small for a throw of {throw_m:.2f} m; choose a shorter one.")
    return Placement(tuple(heads), throw_m, tuple(_doubts(shape, heads, throw_m, spacing_m)))


def _fixed(shape: shapely.Polygon, apart_m: float) -> list[PlacedHead]:
    """Corners, then edges, then inside; what stands too near to one before it is left out."""
    ring = _corners(shape, apart_m)
    rim = [*_in_corners(ring), *_along_edges(ring, apart_m)]
    kept: list[PlacedHead] = []
    for head in rim:
        if all(math.dist(head.at, other.at) >= TOO_NEAR * apart_m for other in kept):
            kept.append(head)
    inside = _grid(shape, apart_m, FROM_EDGE * apart_m, ring=ring)
    return [*kept, *(PlacedHead(at, *FULL, "inside") for at in inside)]


def _corners(shape: shapely.Polygon, apart_m: float) -> list[XY]:
    """The outline against the clock, without what only roughens it."""
    smooth = shapely.Polygon(shape.exterior).simplify(SMOOTH * apart_m)
    ring = shapely.get_coordinates(shapely.orient_polygons(smooth).exterior)[:-1]
    return [(float(x), float(y)) for x, y in ring]


def _around(ring: Sequence[XY]) -> Iterator[tuple[XY, XY, XY]]:
    yield from zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True)


def _in_corners(ring: Sequence[XY]) -> Iterator[PlacedHead]:
    """The interior of a ring against the clock lies clockwise from the way back to the way on."""
    for before, at, after in _around(ring):
        start, end = bearing_deg(at, before), bearing_deg(at, after)
        yield PlacedHead(at, _turned(start), _turned(end - start) or 360.0, "corner")


def _along_edges(ring: Sequence[XY], apart_m: float) -> Iterator[PlacedHead]:
    for start, end in pairwise((*ring, ring[0])):
        steps = _steps(math.dist(start, end), apart_m)
        for step in range(1, steps):
            at = tuple(a + (b - a) * step / steps for a, b in zip(start, end, strict=True))
            yield PlacedHead((at[0], at[1]), _turned(bearing_deg(end, start)), 180.0, "edge")


def _turned(degrees: float) -> float:
    """Within 0 to 360, to a tenth: finer no nozzle is set."""
    return round(degrees % 360, 1) % 360


def _steps(length_m: float, apart_m: float) -> int:
    return max(1, math.ceil(length_m / apart_m - 1e-6))


def _grid(
    shape: shapely.Polygon,
    apart_m: float,
    from_edge_m: float,
    ring: Sequence[XY] = (),
    centred: bool = False,
) -> list[XY]:
    """Points of a grid along the longest edge, at its own equal spacing, that lie well inside."""
    corners = ring or [(float(x), float(y)) for x, y in shapely.get_coordinates(shape.exterior)[:-1]]
    start, end = max(pairwise((*corners, corners[0])), key=lambda side: math.dist(*side))
    length_m = math.dist(start, end)
    along = ((end[0] - start[0]) / length_m, (end[1] - start[1]) / length_m)
    across = (-along[1], along[0])
    spans = [
        [(x - start[0]) * way[0] + (y - start[1]) * way[1] for x, y in corners] for way in (along, across)
    ]
    inner = shape.buffer(-max(from_edge_m - 1e-6, 0.0))
    marks = [
        _marks(min(span), max(span), whole_m, apart_m, centred)
        for span, whole_m in zip(spans, (length_m, max(spans[1]) - min(spans[1])), strict=True)
    ]
    points = [
        (start[0] + u * along[0] + v * across[0], start[1] + u * along[1] + v * across[1])
        for v in marks[1]
        for u in marks[0]
    ]
    return [at for at in points if inner.covers(shapely.Point(at))]


def _marks(low: float, high: float, whole_m: float, apart_m: float, centred: bool) -> list[float]:
    """Marks at the equal spacing that divides ``whole_m``; ``centred``: half a step from its ends."""
    step = whole_m / _steps(whole_m, apart_m)
    first = step / 2 if centred else 0.0
    return [
        first + number * step
        for number in range(math.floor((low - first) / step), math.ceil((high - first) / step) + 1)
    ]


def _doubts(
    shape: shapely.Polygon, heads: Sequence[PlacedHead], throw_m: float, spacing_m: float | None
) -> Iterator[str]:
    if spacing_m and spacing_m > 1.1 * throw_m:
        yield f"At {spacing_m:.2f} m apart they do not reach each other with a throw of {throw_m:.2f} m."
    rings = [shapely.Polygon(sector(head.at, throw_m, head.from_deg, head.sweep_deg)) for head in heads]
    wet = shapely.union_all([ring.buffer(0) for ring in rings])
    bare_m2 = shape.difference(wet.buffer(0.05)).area
    if bare_m2 > BARE_M2:
        yield f"No head reaches {bare_m2:.1f} m² of it: add one there."
    outside = wet.difference(shape.buffer(0.1)).area / wet.area * 100
    if outside > OUTSIDE_PCT:
        yield f"{outside:.0f} % of what they wet lies outside the area: set arcs and reaches closer."
    if shape.interiors:
        yield "The openings in the area are thrown over: look at the heads beside them."
