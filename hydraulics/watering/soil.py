"""What the soil takes in, what lies on it before it runs, and what it holds for roots."""

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

MM_PER_IN = 25.4
SoilName = Literal["sand", "sandy_loam", "loam", "clay_loam", "clay"]
# upper ends of the slope classes in percent; steeper than the last is the fourth
SLOPE_CLASSES_PCT = (5.0, 8.0, 12.0)


@dataclass(frozen=True)
class Soil:
    """``intake_in_per_hour``: greatest rate by slope class, ground covered and bare.

    ``basic_mm_per_hour`` is the range of the basic intake; ``held_m_per_m`` the water that roots
    can take from a metre of soil.
    """

    name: str
    intake_in_per_hour: tuple[tuple[float, float], ...]
    basic_mm_per_hour: tuple[float, float]
    held_m_per_m: float


# Greatest rates, in/h, covered and bare, slopes 0-5, 5-8 and 8-12 %: "Soil assessment", Landscape
# Management magazine, 19 March 2018, which names USDA; above 12 %: from memory.
_COARSE = ((2.0, 2.0), (2.0, 1.5), (1.5, 1.0), (1.0, 0.5))
_LIGHT = ((1.75, 1.0), (1.25, 0.8), (1.0, 0.6), (0.75, 0.4))
_SILT = ((1.0, 0.5), (0.8, 0.4), (0.6, 0.3), (0.4, 0.2))
_HEAVY = ((0.2, 0.15), (0.15, 0.1), (0.12, 0.08), (0.1, 0.06))
# Basic intake: FAO Irrigation Water Management Training Manual 5, annex 2, as quoted by others;
# sand (more than 30 mm/h) from memory.
# Held water: FAO-56 table 19, middle of the range for the texture (from memory).
SOILS: Mapping[str, Soil] = {
    "sand": Soil("sand", _COARSE, (30.0, 50.0), 0.08),
    "sandy_loam": Soil("sandy loam", _LIGHT, (20.0, 30.0), 0.13),
    "loam": Soil("loam", _SILT, (10.0, 20.0), 0.155),
    "clay_loam": Soil("clay loam", _HEAVY, (5.0, 10.0), 0.15),
    "clay": Soil("clay", _HEAVY, (1.0, 5.0), 0.16),
}
# common practice, no source: water that may lie on the ground before it runs, by slope class, mm
STANDING_MM = (5.0, 3.8, 2.5, 2.0)
# common practice, no source: share of the held water that may be used before watering again
USED_SHARE = 0.5


def slope_class(slope_pct: float) -> int:
    """0 for up to 5 %, 1 to 8 %, 2 to 12 %, 3 above."""
    return bisect_left(SLOPE_CLASSES_PCT, slope_pct)


def intake_mm_per_hour(soil: str, slope_pct: float, is_closed: bool) -> float:
    """Greatest rate that the soil takes at that slope, its ground covered or bare."""
    row = SOILS[soil].intake_in_per_hour[slope_class(slope_pct)]
    return row[0 if is_closed else 1] * MM_PER_IN


def standing_mm(slope_pct: float) -> float:
    """Depth that may lie on the ground before it runs off."""
    return STANDING_MM[slope_class(slope_pct)]


def usable_mm(soil: str, roots_m: float) -> float:
    """Depth that the root space can be short of before plants want water: one watering's most."""
    return SOILS[soil].held_m_per_m * roots_m * 1000 * USED_SHARE
