"""The water that a landscape of that size may take in a month, for comparison."""

from dataclasses import dataclass

# EPA WaterSense water budget approach: share of the reference evapotranspiration allowed.
# The 70 % stand in its introduction; the formula is from memory.
ALLOWED_SHARE = 0.70
SOURCE = (
    "EPA WaterSense water budget approach: 70 % of the reference evapotranspiration (formula from memory)"
)


@dataclass(frozen=True)
class WaterBudget:
    """Litres in a month: all of the reference evapotranspiration, and the share allowed."""

    baseline_l: float
    allowance_l: float


def water_budget(eto_mm: float, area_m2: float) -> WaterBudget:
    """A month's budget of an area. 5 in on 1000 ft2: 3116.5 and 2181.55 US gal."""
    litres = eto_mm * area_m2  # a millimetre on a square metre is a litre
    return WaterBudget(litres, ALLOWED_SHARE * litres)
