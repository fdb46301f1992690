"""The one JSON form of a year of watering."""

from dataclasses import asdict
from typing import Any

from hydraulics.watering import MonthProgramme, WateringYear, ZoneWater
from hydraulics.watering.restrictions import WEEKDAYS


def watering_to_dict(year: WateringYear) -> dict[str, Any]:
    """Plain lists and numbers, each in the unit that its name says; months and days count from 1."""
    budget, peak = year.peak_budget, year.peak
    return {
        "litres": year.litres,
        "design_flow_lpm": year.design_flow_lpm,
        "peak_month": peak.climate.month if peak else None,
        "peak_budget": asdict(budget) if budget else None,
        "zones": [_zone(year, zone) for zone in year.zones],
        "months": [_month(month) for month in year.months],
        "savings": [
            {**asdict(saving), "saved_l": saving.saved_l, "saved_pct": saving.saved_pct}
            for saving in year.savings
        ],
        "findings": [asdict(finding) for finding in year.findings],
    }


def _zone(year: WateringYear, zone: ZoneWater) -> dict[str, Any]:
    return {
        **asdict(zone),
        "factor": zone.factor,
        "usable_mm": zone.usable_mm,
        "cycle": asdict(zone.cycle),
        "litres": year.zone_litres(zone.id),
    }


def _month(month: MonthProgramme) -> dict[str, Any]:
    return {
        "month": month.climate.month,
        "days": month.climate.days,
        "eto_mm": month.climate.eto_mm,
        "rain_mm": month.climate.rain_mm,
        "litres": month.litres,
        "window_min": month.window_min,
        "busiest_day_min": month.busiest.total_min,
        "fits": month.fits,
        "busiest_day": [asdict(start) for start in month.busiest.starts],
        "weekdays": {case: [WEEKDAYS[day] for day in days] for case, days in month.weekdays.items()},
        "zones": [
            {**asdict(zone), "day_min": zone.day_min, "week_min": zone.week_min} for zone in month.zones
        ],
    }
