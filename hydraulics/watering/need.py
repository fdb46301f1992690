"""From climate and plants to minutes: depth needed, more for uneven water, time at the zone's rate."""

from hydraulics.errors import HydraulicsError
from hydraulics.watering.climate import MonthClimate

# common practice, no source: share of rain that the roots get, the rest runs off or falls at a bad time
RAIN_SHARE = 0.5


class NoRate(HydraulicsError):
    """A zone's precipitation rate or uniformity is not one that minutes can be worked out from."""


def monthly_need_mm(month: MonthClimate, factor: float, rain_share: float = RAIN_SHARE) -> float:
    """Depth that irrigation has to bring in that month: factor x ETo less the useful rain, at least 0."""
    return max(factor * month.eto_mm - rain_share * month.rain_mm, 0.0)


def weekly_need_mm(month: MonthClimate, factor: float, rain_share: float = RAIN_SHARE) -> float:
    return monthly_need_mm(month, factor, rain_share) * 7 / month.days


def scheduling_multiplier(du: float) -> float:
    """1 / (0.4 + 0.6 DUlq), DUlq as a share: the programme's extra for uneven water.

    Source: from memory (irrigation audit guidelines). It stays below 2.5, where 1 / DUlq goes
    beyond all bounds; it leaves part of the driest quarter to water that moves sideways in soil.
    """
    return 1 / (0.4 + 0.6 * _share(du))


def low_quarter_multiplier(du: float) -> float:
    """1 / DUlq: the driest quarter gets the full need. Source: from memory."""
    share = _share(du)
    if share <= 0:
        raise NoRate("with a driest quarter that gets nothing no run time is long enough; move or add heads")
    return 1 / share


def run_minutes(depth_mm: float, mm_per_hour: float, multiplier: float = 1.0) -> float:
    """Minutes in which that depth falls at that rate, not rounded."""
    if not mm_per_hour > 0:
        raise NoRate("the zone's precipitation rate must be above zero")
    return 60 * depth_mm * multiplier / mm_per_hour


def _share(du: float) -> float:
    if not 0 <= du <= 1:
        raise NoRate(f"a distribution uniformity of {du:g} is no share between 0 and 1")
    return du
