"""What the page of a watering year shows, its figures written in the site's units."""

from dataclasses import dataclass
from functools import cached_property

from django.utils.safestring import SafeString, mark_safe

from design.drawing import DrawingOptions, to_svg
from design.drawing.options import Units
from design.watering_chart import watering_chart
from hydraulics.units import from_si
from hydraulics.watering import COVERS, MonthProgramme, WateringYear, ZoneProgramme, ZoneWater
from hydraulics.watering.budget import SOURCE as BUDGET_SOURCE
from hydraulics.watering.restrictions import DAY_MIN, WEEKDAYS, Restrictions
from sites.figures import in_system
from sites.models import WateringRules
from sites.watering_year import restrictions_of

SEVERITY_NAMES = {"stop": "stop", "warn": "decide", "note": "note"}


@dataclass(frozen=True)
class MonthRow:
    name: str
    eto: str
    rain: str
    zones: tuple[ZoneProgramme, ...]
    busiest: str
    litres: str
    water: str  # the same without its unit
    fits: bool


@dataclass(frozen=True)
class ZoneRow:
    zone: ZoneWater
    rate: str
    flow: str
    share_pct: float  # of the design flow
    intake: str
    litres: str


@dataclass(frozen=True)
class SavingRow:
    baseline: str
    baseline_l: str
    saved_l: str
    pct: float
    is_more: bool


class WateringPage:
    """``rules`` is the site's row, or none where nothing is restricted."""

    budget_source = BUDGET_SOURCE

    def __init__(self, year: WateringYear, units: str, rules: WateringRules | None) -> None:
        self.year, self.rules = year, rules
        self.units: Units = "us" if units == "us" else "metric"
        self.restrictions: Restrictions = restrictions_of(rules)

    @property
    def chart(self) -> SafeString:
        options = DrawingOptions(width=560, units=self.units, title="Water by month", id_prefix="water-")
        drawing = watering_chart(self.year, self.restrictions.monthly_cap_l, options)
        return mark_safe(to_svg(drawing))  # noqa: S308

    @cached_property
    def findings(self) -> list[tuple[str, object]]:
        return [(SEVERITY_NAMES[finding.severity.value], finding) for finding in self.year.findings]

    @cached_property
    def months(self) -> list[MonthRow]:
        return [self._month(month) for month in self.year.months]

    @property
    def total(self) -> str:
        return self._litres(self.year.litres)

    @property
    def total_water(self) -> str:
        return self._volume(self.year.litres)

    @property
    def volume_unit(self) -> str:
        return "US gal" if self.units == "us" else "L"

    @cached_property
    def zone_totals(self) -> list[str]:
        """A year's water of each, without its unit."""
        return [self._volume(self.year.zone_litres(zone.id)) for zone in self.zones_in_order]

    @cached_property
    def zones_in_order(self) -> list[ZoneWater]:
        """In the order of the programme's columns."""
        by_id = {zone.id: zone for zone in self.year.zones}
        return [by_id[row.zone] for row in self.year.months[0].zones]

    def zone_rows(self) -> list[ZoneRow]:
        return [
            ZoneRow(
                zone=zone,
                rate=in_system(zone.mm_per_hour, "rate", self.units),
                flow=in_system(zone.flow_lpm, "flow", self.units),
                share_pct=100 * zone.flow_lpm / self.year.design_flow_lpm,
                intake=in_system(zone.cycle.intake_mm_per_hour, "rate", self.units),
                litres=self._litres(self.year.zone_litres(zone.id)),
            )
            for zone in self.zones_in_order
        ]

    @cached_property
    def peak(self) -> MonthRow | None:
        return self._month(self.year.peak) if self.year.peak else None

    @property
    def peak_week(self) -> list[tuple[str, str]]:
        """Case, and its weekdays in the peak month."""
        peak = self.year.peak
        rows = peak.weekdays.items() if peak else ()
        return [(case, ", ".join(WEEKDAYS[day] for day in days)) for case, days in rows]

    @property
    def peak_cycles(self) -> list[tuple[ZoneWater, ZoneProgramme]]:
        """Each zone that runs in the peak month, and what it does there."""
        peak = self.year.peak
        pairs = zip(self.zones_in_order, peak.zones if peak else (), strict=False)
        return [(zone, programme) for zone, programme in pairs if programme.days]

    @property
    def peak_day(self) -> list[tuple[str, str, int]]:
        """Time, case and minutes of each start on the busiest day."""
        peak = self.year.peak
        starts = peak.busiest.starts if peak else ()
        return [(self._clock(start.begins_min), start.case, start.minutes) for start in starts]

    @property
    def supply_share_pct(self) -> float | None:
        """The peak week's water, of what the design flow gives in the allowed hours."""
        peak, window = self.year.peak, self.restrictions.window_min * len(self.restrictions.weekdays)
        most = self.year.design_flow_lpm * window
        return 100 * peak.week_l / most if peak and most > 0 else None

    @property
    def budget(self) -> tuple[str, str, float] | None:
        """Programme in the peak month, allowance, and the first in percent of the second."""
        budget, peak = self.year.peak_budget, self.year.peak
        if budget is None or peak is None or budget.allowance_l <= 0:
            return None
        share = 100 * peak.litres / budget.allowance_l
        return self._litres(peak.litres), self._litres(budget.allowance_l), share

    @property
    def savings(self) -> list[SavingRow]:
        return [
            SavingRow(
                row.baseline,
                self._litres(row.baseline_l),
                self._litres(abs(row.saved_l)),
                abs(row.saved_pct or 0.0),
                row.saved_l < 0,
            )
            for row in self.year.savings
        ]

    @property
    def allowed(self) -> str:
        """Days and hours in words."""
        rules = self.restrictions
        days = "every day" if len(rules.weekdays) == 7 else ", ".join(WEEKDAYS[day] for day in rules.weekdays)
        hours = "all day"
        if rules.from_min is not None and rules.to_min is not None:
            hours = f"{_of_day(rules.from_min)} to {_of_day(rules.to_min)}"
        cap = f"; at most {self._litres(rules.monthly_cap_l)} a month" if rules.monthly_cap_l else ""
        return f"{days}, {hours}{cap}"

    @property
    def covers(self) -> list[tuple[str, float, str]]:
        """Cover, factor and source, of those that the zones have."""
        used = {cover for zone in self.year.zones for cover in zone.covers or (zone.cover,)}
        return [(name, cover.factor, cover.source) for name, cover in COVERS.items() if name in used]

    def _month(self, month: MonthProgramme) -> MonthRow:
        return MonthRow(
            month.climate.name,
            in_system(month.climate.eto_mm, "depth", self.units),
            in_system(month.climate.rain_mm, "depth", self.units),
            month.zones,
            f"{month.busiest.total_min} min" if month.is_wet else "—",
            self._litres(month.litres) if month.is_wet else "—",
            self._volume(month.litres) if month.is_wet else "—",
            month.fits,
        )

    def _litres(self, litres: float) -> str:
        return f"{self._volume(litres)} {self.volume_unit}"

    def _volume(self, litres: float) -> str:
        return f"{from_si(litres, 'volume', 'gal' if self.units == 'us' else 'L'):,.0f}"

    def _clock(self, minutes: int) -> str:
        """Time of day where hours are set, else the time from the first start."""
        if self.restrictions.from_min is None:
            return f"+ {minutes // 60}:{minutes % 60:02d}"
        at = self.restrictions.from_min + minutes
        return _of_day(at) + (" next day" if at >= DAY_MIN else "")


def _of_day(minutes: int) -> str:
    return f"{minutes // 60 % 24:02d}:{minutes % 60:02d}"
