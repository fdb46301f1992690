"""What was read on the ground, in metres and degrees. Callers keep the text as it was typed."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from design.problems import DesignError
from design.report import XY

Side = Literal["left", "right"]

# common practice, no source: a tape pulled over a lawn by two people
TAPE_SIGMA_M = 0.02


class SurveyError(DesignError):
    """Readings that give no point; the text is a sentence for the person who typed them."""


@dataclass(frozen=True)
class Tie:
    """A point by two tapes. ``side`` is as seen standing at ``first`` and facing ``second``."""

    point: str
    first: str
    second: str
    first_m: float
    second_m: float
    side: Side


@dataclass(frozen=True)
class Offset:
    """A point by chainage along the line ``start`` to ``end``, and square off it to one side."""

    point: str
    start: str
    end: str
    chainage_m: float
    offset_m: float
    side: Side


@dataclass(frozen=True)
class Leg:
    """A stretch walked to ``point``; ``bearing_deg`` clockwise from north."""

    point: str
    length_m: float
    bearing_deg: float


@dataclass(frozen=True)
class Distance:
    """One tape between two points or marks; ``sigma_m`` is its likely error."""

    first: str
    second: str
    length_m: float
    sigma_m: float = TAPE_SIGMA_M

    @property
    def name(self) -> str:
        return f"{self.first} to {self.second}"


@dataclass(frozen=True)
class Placed:
    """A point with its likely error; ``caution`` says what is weak about it, empty if nothing.

    ``how`` names the kind of reading that placed it: mark, ties, walk or offset.
    """

    point: str
    at: XY
    error_m: float
    caution: str = ""
    how: str = ""

    @property
    def weak(self) -> bool:
        return bool(self.caution)


def known(places: Mapping[str, XY], name: str) -> XY:
    """Where a mark or point lies. Raises SurveyError where nobody placed it."""
    try:
        return places[name]
    except KeyError:
        raise SurveyError(f"{name} has no place yet. Measure it from two marks first.") from None


def length_ok(value_m: float, what: str, *, zero: bool = False) -> float:
    """The length itself. Raises SurveyError for one that no tape or wheel can show."""
    if not math.isfinite(value_m) or value_m < 0 or (value_m == 0 and not zero):
        raise SurveyError(f"{what} must be a length above zero, not {value_m:g} m.")
    return value_m


def apart(places: Mapping[str, XY], first: str, second: str) -> tuple[XY, XY, float]:
    """Two known places and the metres between them. Raises SurveyError where they coincide."""
    a, b = known(places, first), known(places, second)
    base_m = math.dist(a, b)
    if base_m < 1e-6:
        raise SurveyError(f"{first} and {second} lie on the same spot. Take two marks that lie apart.")
    return a, b, base_m


def off_line(start: XY, end: XY, along_m: float, left_m: float) -> XY:
    """The point ``along_m`` from ``start`` towards ``end`` and ``left_m`` to the left of that line."""
    base_m = math.dist(start, end)
    east, north = (end[0] - start[0]) / base_m, (end[1] - start[1]) / base_m
    return (start[0] + along_m * east - left_m * north, start[1] + along_m * north + left_m * east)
