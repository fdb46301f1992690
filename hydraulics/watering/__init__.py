"""When and how long to water: reference evapotranspiration, need, cycles, a week's programme, a year.

``watering_year`` ties the rest together; each step stands alone in a module of its name and may
be called from a notebook. docs/watering.md gives formulas, sources and the order of the steps.
"""

from hydraulics.watering.budget import WaterBudget, water_budget
from hydraulics.watering.climate import BadClimate, Climate, MonthClimate
from hydraulics.watering.covers import COVERS, Cover
from hydraulics.watering.cycles import CycleLimit, cycle_limit, split_cycles
from hydraulics.watering.day import WateringDay, order_day
from hydraulics.watering.evapotranspiration import (
    Weather,
    hargreaves_mm_per_day,
    monthly_soil_heat,
    reference_et,
)
from hydraulics.watering.need import (
    low_quarter_multiplier,
    run_minutes,
    scheduling_multiplier,
    weekly_need_mm,
)
from hydraulics.watering.programme import MonthProgramme, ZoneProgramme
from hydraulics.watering.restrictions import Restrictions
from hydraulics.watering.savings import Saving
from hydraulics.watering.year import WateringYear, watering_year
from hydraulics.watering.zone import ZoneWater

__all__ = [
    "COVERS", "BadClimate", "Climate", "Cover", "CycleLimit", "MonthClimate", "MonthProgramme",
    "Restrictions", "Saving", "WaterBudget", "WateringDay", "WateringYear", "Weather", "ZoneProgramme",
    "ZoneWater", "cycle_limit", "hargreaves_mm_per_day", "low_quarter_multiplier", "monthly_soil_heat",
    "order_day", "reference_et", "run_minutes", "scheduling_multiplier", "split_cycles", "water_budget",
    "watering_year", "weekly_need_mm",
]  # fmt: skip
