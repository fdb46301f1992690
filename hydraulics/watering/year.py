"""Twelve programmes, what they use, what they are compared with, and what does not fit."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from hydraulics.findings import Finding
from hydraulics.watering.budget import WaterBudget, water_budget
from hydraulics.watering.climate import Climate
from hydraulics.watering.programme import Cases, Choices, MonthProgramme, month_programme
from hydraulics.watering.restrictions import Restrictions
from hydraulics.watering.rules import Judged, watering_findings
from hydraulics.watering.savings import Saving
from hydraulics.watering.zone import ZoneWater

SAME_ALL_SEASON = "the peak month's minutes in every month that waters"
NO_RAIN = "the same months and zones with no credit for rain"


@dataclass(frozen=True)
class WateringYear:
    months: tuple[MonthProgramme, ...]
    zones: tuple[ZoneWater, ...]
    savings: tuple[Saving, ...]
    findings: tuple[Finding, ...]
    design_flow_lpm: float

    @cached_property
    def season(self) -> tuple[MonthProgramme, ...]:
        """The months in which anything runs."""
        return tuple(month for month in self.months if month.is_wet)

    @cached_property
    def peak(self) -> MonthProgramme | None:
        """The month whose week takes most water."""
        return max(self.season, key=lambda month: month.week_l, default=None)

    @property
    def litres(self) -> float:
        return sum(month.litres for month in self.months)

    def zone_litres(self, zone: str) -> float:
        return sum(p.month_l for month in self.months for p in month.zones if p.zone == zone)

    @property
    def peak_budget(self) -> WaterBudget | None:
        """What all areas watered may take in the peak month."""
        if self.peak is None:
            return None
        return water_budget(self.peak.climate.eto_mm, sum(zone.area_m2 for zone in self.zones))


def watering_year(
    climate: Climate,
    zones: Sequence[ZoneWater],
    cases: Cases,
    rules: Restrictions,
    choices: Choices,
    design_flow_lpm: float,
) -> WateringYear:
    """The year's programme. ``cases`` are labels with the zones that run together.

    Raises NoRate where a zone's uniformity allows no run time.
    """
    months = tuple(month_programme(month, zones, cases, rules, choices) for month in climate.months)
    savings = _savings(months, (zones, cases, rules), choices)
    findings = watering_findings(Judged(months, tuple(zones), tuple(cases), rules, design_flow_lpm))
    return WateringYear(months, tuple(zones), savings, findings, design_flow_lpm)


def _savings(
    months: Sequence[MonthProgramme],
    same: tuple[Sequence[ZoneWater], Cases, Restrictions],
    choices: Choices,
) -> tuple[Saving, ...]:
    season = [month for month in months if month.is_wet]
    if not season:
        return ()
    zones, cases, rules = same
    used = sum(month.litres for month in season)
    peak_l = max(month.week_l for month in season)
    flat = sum(peak_l * month.climate.days / 7 for month in season)
    rainless = Choices(0.0, choices.multiplier)
    dry = sum(month_programme(month.climate, zones, cases, rules, rainless).litres for month in season)
    return (Saving(SAME_ALL_SEASON, flat, used), Saving(NO_RAIN, dry, used))
