"""A walk of legs around or between known points: misclosure, and the compass rule on request.

Latitude = L cos(bearing), departure = L sin(bearing). The compass (Bowditch) rule shares the
misclosure out by length: correction of a leg = −misclosure · L / sum of L. Source: Purdue
University, ASM 215, traverse calculations.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from design.report import XY
from design.survey.readings import Leg, SurveyError, length_ok

# common practice, no source: a wheel over grass, and a bearing by hand compass
WHEEL_SHARE = 0.01
BEARING_SIGMA_DEG = 2.0
# common practice, no source: closes within 0.3 m or 1 %; beyond 2 % it is walked again
GOOD_MISCLOSURE_M = 0.30
GOOD_SHARE = 0.01
BAD_SHARE = 0.02


@dataclass(frozen=True)
class Stretch:
    """A leg with what it adds to the north and to the east [m]."""

    leg: Leg
    latitude_m: float
    departure_m: float


@dataclass(frozen=True)
class Traverse:
    """Stretches from ``start``, meant to end on ``close``; where they end instead is the misclosure."""

    start: XY
    close: XY
    stretches: tuple[Stretch, ...]
    balanced: bool = False

    @property
    def points(self) -> tuple[XY, ...]:
        """Where each leg ends."""
        easts = itertools.accumulate((s.departure_m for s in self.stretches), initial=self.start[0])
        norths = itertools.accumulate((s.latitude_m for s in self.stretches), initial=self.start[1])
        return tuple(zip(easts, norths, strict=True))[1:]

    @property
    def length_m(self) -> float:
        return math.fsum(stretch.leg.length_m for stretch in self.stretches)

    @property
    def misclosure_north_m(self) -> float:
        return math.fsum(s.latitude_m for s in self.stretches) - (self.close[1] - self.start[1])

    @property
    def misclosure_east_m(self) -> float:
        return math.fsum(s.departure_m for s in self.stretches) - (self.close[0] - self.start[0])

    @property
    def misclosure_m(self) -> float:
        return math.hypot(self.misclosure_north_m, self.misclosure_east_m)

    @property
    def ratio(self) -> float:
        """The n of 1:n; infinite where it closes exactly."""
        return self.length_m / self.misclosure_m if self.misclosure_m > 1e-9 else math.inf

    @property
    def verdict(self) -> Literal["good", "unsure", "walk again"]:
        share = self.misclosure_m / self.length_m
        if self.misclosure_m <= GOOD_MISCLOSURE_M or share <= GOOD_SHARE:
            return "good"
        return "unsure" if share <= BAD_SHARE else "walk again"


def walk(start: XY, legs: Sequence[Leg], close: XY | None = None) -> Traverse:
    """The legs as read, nothing shared out. Without ``close`` the walk is meant to end where it began.

    Raises SurveyError for no leg at all, or one whose length or bearing cannot be.
    """
    if not legs:
        raise SurveyError("A walk needs at least one leg. Type its length and its bearing.")
    return Traverse(start, close or start, tuple(_stretch(leg) for leg in legs))


def balance_by_compass_rule(traverse: Traverse) -> Traverse:
    """The same walk with its misclosure shared out by the length of the legs."""
    north, east, total = traverse.misclosure_north_m, traverse.misclosure_east_m, traverse.length_m
    balanced = tuple(
        replace(
            stretch,
            latitude_m=stretch.latitude_m - north * stretch.leg.length_m / total,
            departure_m=stretch.departure_m - east * stretch.leg.length_m / total,
        )
        for stretch in traverse.stretches
    )
    return replace(traverse, stretches=balanced, balanced=True)


def likely_errors_m(
    traverse: Traverse, length_share: float = WHEEL_SHARE, bearing_sigma_deg: float = BEARING_SIGMA_DEG
) -> tuple[float, ...]:
    """Likely error of each point [m], each bearing read for itself.

    The squares of what each leg adds, sum(L² (share² + angle²)), grow along the walk; where the
    rule has shared the misclosure out they shrink to nothing at its end: V(k) (1 − V(k) / V(end)).
    """
    per_metre = math.hypot(length_share, math.radians(bearing_sigma_deg))
    squares = [(s.leg.length_m * per_metre) ** 2 for s in traverse.stretches]
    grown = list(itertools.accumulate(squares))
    if traverse.balanced:
        grown = [value * (1 - value / grown[-1]) for value in grown]
    return tuple(math.sqrt(max(0.0, value)) for value in grown)


def turned_errors_m(
    traverse: Traverse, length_share: float = WHEEL_SHARE, turn_sigma_deg: float = BEARING_SIGMA_DEG
) -> tuple[float, ...]:
    """Likely error of each point [m] where legs were turned: a wrong turn swings all that follows.

    Before any sharing out, so on the safe side for a balanced walk.
    """
    corners = (traverse.start, *traverse.points)
    turn, errors, lengths = math.radians(turn_sigma_deg), [], 0.0
    for count, stretch in enumerate(traverse.stretches, start=1):
        lengths += (stretch.leg.length_m * length_share) ** 2
        swings = sum((math.dist(corner, corners[count]) * turn) ** 2 for corner in corners[:count])
        errors.append(math.sqrt(lengths + swings))
    return tuple(errors)


def _stretch(leg: Leg) -> Stretch:
    length_ok(leg.length_m, f"The leg to {leg.point}")
    if not math.isfinite(leg.bearing_deg):
        raise SurveyError(f"The bearing of the leg to {leg.point} must be a number of degrees.")
    angle = math.radians(leg.bearing_deg)
    return Stretch(leg, leg.length_m * math.cos(angle), leg.length_m * math.sin(angle))
