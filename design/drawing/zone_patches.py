"""The ground of each zone as one patch, so that neighbouring zones do not cover each other.

Throws overlap on purpose: each spot is given to the nearest of the heads that wet it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from shapely import Polygon, STRtree, make_valid, union_all
from shapely.geometry.base import BaseGeometry

from design.report import XY

Ring = tuple[XY, ...]
_SMALLEST_M2 = 0.2  # a sliver between two throws is no patch
_SIMPLE_M = 0.02
_FAR_M = 1e4


@dataclass(frozen=True)
class Throw:
    """What one head wets, in site metres."""

    zone: int
    at: XY
    ring: Ring


def zone_patches(throws: Sequence[Throw], owned: Mapping[int, Sequence[Ring]]) -> dict[int, list[Polygon]]:
    """Patches by zone, none over another. ``owned`` are areas that drip line fills, by zone."""
    kept = {zone: union_all([_valid(ring) for ring in rings]) for zone, rings in owned.items()}
    filled = union_all(list(kept.values()))
    shares = _shares(throws)
    patches = {}
    for zone in sorted({throw.zone for throw in throws} | set(kept)):
        mine = [share for throw, share in zip(throws, shares, strict=True) if throw.zone == zone]
        patches[zone] = _pieces(union_all([union_all(mine).difference(filled), kept.get(zone, Polygon())]))
    return patches


def _valid(ring: Ring) -> BaseGeometry:
    return make_valid(Polygon(ring)) if len(ring) > 2 else Polygon()


def _shares(throws: Sequence[Throw]) -> list[BaseGeometry]:
    """Each throw without the ground that is nearer to a head of another zone which wets it too."""
    shapes = [_valid(throw.ring) for throw in throws]
    tree = STRtree(shapes)
    shares = []
    for throw, shape in zip(throws, shapes, strict=True):
        rivals = sorted(int(i) for i in tree.query(shape) if throws[int(i)].zone != throw.zone)
        lost = [shapes[i].intersection(_nearer(throws[i].at, throw.at)) for i in rivals]
        shares.append(shape.difference(union_all(lost)) if lost else shape)
    return shares


def _nearer(one: XY, other: XY) -> Polygon:
    """The half of the plane that is nearer to ``one``; nothing when they coincide."""
    x, y = one[0] - other[0], one[1] - other[1]
    length = hypot(x, y)
    if length == 0:
        return Polygon()
    x, y = x / length * _FAR_M, y / length * _FAR_M
    middle = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
    left, right = (middle[0] - y, middle[1] + x), (middle[0] + y, middle[1] - x)
    return Polygon((left, right, (right[0] + x, right[1] + y), (left[0] + x, left[1] + y)))


def _pieces(shape: BaseGeometry) -> list[Polygon]:
    plain = shape.simplify(_SIMPLE_M)
    parts = [p for p in getattr(plain, "geoms", [plain]) if isinstance(p, Polygon)]
    return [p for p in parts if p.area >= _SMALLEST_M2]
