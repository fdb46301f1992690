"""Cycle and soak: as long as the soil takes it, then a pause in which it sinks in."""

import math
from dataclasses import dataclass

from hydraulics.watering.soil import SOILS, intake_mm_per_hour, standing_mm

# common practice, no source; a city's watering page (Aurora Water, Colorado) asks for 45 to 60 minutes
LEAST_SOAK_MIN = 30
_STEP_MIN = 5


@dataclass(frozen=True)
class CycleLimit:
    """``longest_min`` is none where the soil takes the water as fast as it falls."""

    intake_mm_per_hour: float
    standing_mm: float
    longest_min: float | None
    soak_min: int


def cycle_limit(mm_per_hour: float, soil: str, slope_pct: float, is_closed: bool) -> CycleLimit:
    """Longest run before water flows off: what may lie on the ground over what the soil cannot take.

    ``longest = 60 standing / (rate - intake)``. The soak is the time in which the standing water
    sinks in at the soil's basic intake (the upper end of its range), at least half an hour,
    rounded up to five minutes. Common practice, no source.
    """
    intake, standing = intake_mm_per_hour(soil, slope_pct, is_closed), standing_mm(slope_pct)
    if mm_per_hour <= intake:
        return CycleLimit(intake, standing, None, 0)
    longest = 60 * standing / (mm_per_hour - intake)
    soak = max(60 * standing / SOILS[soil].basic_mm_per_hour[1], LEAST_SOAK_MIN)
    return CycleLimit(intake, standing, longest, _STEP_MIN * math.ceil(soak / _STEP_MIN - 1e-9))


def split_cycles(minutes: int, longest_min: float | None) -> tuple[int, ...]:
    """Whole minutes of each cycle, the fewest and most alike that stay within the longest run.

    They add up to ``minutes``. A run below a minute cannot be set, so that one minute is the least.
    """
    if minutes <= 0:
        return ()
    if longest_min is None:
        return (minutes,)
    longest = max(math.floor(longest_min + 1e-9), 1)
    count = math.ceil(minutes / longest)
    each, over = divmod(minutes, count)
    return tuple(each + 1 if place < over else each for place in range(count))
