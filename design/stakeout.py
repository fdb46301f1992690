"""Setting out with two tapes: how far each point lies from which two marks, on which side.

The position error of two tapes is about ``sigma * sqrt(2) / sin(gamma)``, where gamma is the
angle at which they meet: textbook surveying, from memory. Tapes that meet at a flat or a sharp
angle put the point anywhere.
"""

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from design.document import Mark, Plan
from design.report import XY

# common practice, no source
LEAST_ANGLE_DEG = 30.0
LARGEST_ANGLE_DEG = 150.0
LONGEST_TAPE_M = 30.0
TAPE_SIGMA_M = 0.02
BASE_TOLERANCE_M = 0.05  # the two marks measured against the plan: beyond this, stop
# A mark sits on a corner: a tape that grazes the wall beside it is still free.
_GRAZE_M = 0.05

Side = Literal["left", "right", "on the line"]
PointKind = Literal["head", "valve", "controller", "trench turn", "sleeve end"]


class TapeError(ValueError):
    """Two tapes of those lengths do not meet."""


@dataclass(frozen=True)
class Tie:
    """A point by two tapes. ``side`` is as seen standing at ``first`` and facing ``second``."""

    first: str
    second: str
    first_m: float
    second_m: float
    angle_deg: float
    side: Side
    error_m: float
    blocked: bool  # a building stands in the way of a tape

    @property
    def angle_good(self) -> bool:
        return LEAST_ANGLE_DEG <= self.angle_deg <= LARGEST_ANGLE_DEG

    @property
    def tapes_short(self) -> bool:
        return max(self.first_m, self.second_m) <= LONGEST_TAPE_M

    @property
    def good(self) -> bool:
        return self.angle_good and self.tapes_short and not self.blocked


@dataclass(frozen=True)
class Check:
    """A third tape that proves the two others."""

    mark: str
    distance_m: float


@dataclass(frozen=True)
class Place:
    """A point that wants setting out."""

    id: str
    kind: PointKind
    label: str
    at: XY


@dataclass(frozen=True)
class Stake(Place):
    """One point to set out. Without a tie the plan holds no two marks; ``caution`` then says so."""

    tie: Tie | None
    check: Check | None
    caution: str  # what is amber about it, with what to do; empty if nothing


@dataclass(frozen=True)
class BaseLine:
    """Two marks that tapes are pulled from: measure between them before anything else."""

    first: str
    second: str
    distance_m: float


def two_tape_point(first_m: float, second_m: float, base_m: float) -> tuple[float, float]:
    """Where two tapes meet: metres along the line from the first mark, and metres off it.

    x = (a^2 - b^2 + d^2) / (2 d), y = sqrt(a^2 - x^2); the point may lie on either side.
    Raises TapeError where they cannot meet.
    """
    if not (base_m > 0 and first_m >= 0 and second_m >= 0):
        raise TapeError("the marks must lie apart and tapes cannot be negative")
    if first_m + second_m < base_m:
        raise TapeError("together the tapes are shorter than the line between the marks")
    if abs(first_m - second_m) > base_m:
        raise TapeError("one tape is longer than the other and the line together")
    along = (first_m**2 - second_m**2 + base_m**2) / (2 * base_m)
    return along, math.sqrt(max(0.0, first_m**2 - along**2))


def tie_to(point: XY, first: Mark, second: Mark, buildings: BaseGeometry | None = None) -> Tie:
    """The point by tapes from two marks."""
    first_m, second_m = math.dist(point, first.at), math.dist(point, second.at)
    angle = _angle_deg(point, first.at, second.at)
    sine = math.sin(math.radians(angle))
    error = TAPE_SIGMA_M * math.sqrt(2) / sine if sine > 1e-6 else math.inf
    blocked = buildings is not None and any(_blocked(point, mark.at, buildings) for mark in (first, second))
    side = _side(point, first.at, second.at)
    return Tie(first.id, second.id, first_m, second_m, angle, side, error, blocked)


def best_tie(point: XY, marks: Sequence[Mark], buildings: BaseGeometry | None = None) -> Tie | None:
    """The tie with the least error, those that a person can tape well before all others."""
    ties = [tie_to(point, *pair, buildings) for pair in itertools.combinations(marks, 2)]
    return min(ties, key=_worth, default=None)


def base_lines(plan: Plan, stakes: Iterable[Stake]) -> tuple[BaseLine, ...]:
    """The pairs of marks in use, with the distance that the tape must show between them."""
    places = {mark.id: mark.at for mark in plan.ground.marks}
    pairs = dict.fromkeys((stake.tie.first, stake.tie.second) for stake in stakes if stake.tie)
    return tuple(BaseLine(a, b, math.dist(places[a], places[b])) for a, b in pairs)


def stake_point(place: Place, marks: Sequence[Mark], buildings: BaseGeometry | None = None) -> Stake:
    """The point with its best tie, a check distance where a third mark stands, and its caution."""
    tie = best_tie(place.at, marks, buildings)
    check = _check(place.at, marks, tie)
    return Stake(place.id, place.kind, place.label, place.at, tie, check, _caution(tie))


def buildings_of(plan: Plan) -> BaseGeometry | None:
    """What a tape cannot pass, drawn in by the width of a graze; none if nothing stands there."""
    rings = [surface.outline for surface in plan.ground.surfaces if surface.kind == "building"]
    shape = unary_union([Polygon(ring).buffer(0).buffer(-_GRAZE_M) for ring in rings])
    return None if shape.is_empty else shape


def _worth(tie: Tie) -> tuple[bool, bool, bool, float]:
    return (tie.blocked, not tie.angle_good, not tie.tapes_short, tie.error_m)


def _angle_deg(point: XY, first: XY, second: XY) -> float:
    """The angle at the point between the tapes; 0 where it stands on a mark."""
    ax, ay = first[0] - point[0], first[1] - point[1]
    bx, by = second[0] - point[0], second[1] - point[1]
    return abs(math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by)))


def _side(point: XY, first: XY, second: XY) -> Side:
    """Side of the line first to second, to a centimetre."""
    dx, dy = second[0] - first[0], second[1] - first[1]
    length = math.hypot(dx, dy)
    off = (dx * (point[1] - first[1]) - dy * (point[0] - first[0])) / length if length else 0.0
    if abs(off) < 0.01:
        return "on the line"
    return "left" if off > 0 else "right"


def _blocked(point: XY, mark: XY, buildings: BaseGeometry) -> bool:
    return point != mark and LineString([point, mark]).intersects(buildings)


def _check(at: XY, marks: Sequence[Mark], tie: Tie | None) -> Check | None:
    used = (tie.first, tie.second) if tie else ()
    others = [Check(mark.id, math.dist(at, mark.at)) for mark in marks if mark.id not in used]
    return min(others, key=lambda check: check.distance_m, default=None) if tie else None


def _caution(tie: Tie | None) -> str:
    if tie is None:
        return "The plan has fewer than two marks. Ask the office for a second mark before you set out."
    if tie.blocked:
        return "A building is in the way of a tape. Set this point out from its neighbours; check it twice."
    if not tie.angle_good:
        return f"The tapes meet at {tie.angle_deg:.0f}°: unsure. Use another pair of marks if you can."
    if not tie.tapes_short:
        return f"A tape is longer than {LONGEST_TAPE_M:.0f} m. Pull it level and have someone hold it up."
    return ""
