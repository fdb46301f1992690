"""The climate of a place: reference evapotranspiration and rain of each month."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hydraulics.errors import HydraulicsError

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
# a year that is no leap year
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
# common practice, no source: hot deserts reach about 350 mm of reference evapotranspiration a month
MOST_ETO_MM = 500.0
# from memory: more rain than this has fallen in a month in few places on earth
MOST_RAIN_MM = 3000.0


class BadClimate(HydraulicsError):
    """The table of months cannot be true; the message names the month."""


@dataclass(frozen=True)
class MonthClimate:
    """``month`` counts from 1. Both figures are mm in that month, means of many years."""

    month: int
    eto_mm: float
    rain_mm: float

    def __post_init__(self) -> None:
        if self.month not in range(1, 13):
            raise BadClimate(f"month {self.month} is none of 1 to 12")
        for name, value, most in (
            ("reference evapotranspiration", self.eto_mm, MOST_ETO_MM),
            ("rain", self.rain_mm, MOST_RAIN_MM),
        ):
            if not (math.isfinite(value) and 0 <= value <= most):
                raise BadClimate(f"{self.name}: {name} of {value:g} mm is outside 0 to {most:g} mm a month")

    @property
    def name(self) -> str:
        return MONTHS[self.month - 1]

    @property
    def days(self) -> int:
        return DAYS[self.month - 1]


@dataclass(frozen=True)
class Climate:
    """Twelve months, January first."""

    months: tuple[MonthClimate, ...]

    def __post_init__(self) -> None:
        if [month.month for month in self.months] != list(range(1, 13)):
            raise BadClimate("a climate has twelve months, each once, January first")

    @classmethod
    def of(cls, eto_mm: Sequence[float], rain_mm: Sequence[float]) -> "Climate":
        if len(eto_mm) != 12 or len(rain_mm) != 12:
            raise BadClimate("a climate has twelve months, each once, January first")
        rows = zip(range(1, 13), eto_mm, rain_mm, strict=True)
        return cls(tuple(MonthClimate(month, eto, rain) for month, eto, rain in rows))
