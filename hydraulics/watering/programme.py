"""The programme of one month: minutes, days and cycles of each zone, and whether the day has room."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import Literal

from hydraulics.watering.climate import MonthClimate
from hydraulics.watering.cycles import split_cycles
from hydraulics.watering.day import CaseRun, WateringDay, order_day
from hydraulics.watering.need import (
    RAIN_SHARE,
    NoRate,
    low_quarter_multiplier,
    run_minutes,
    scheduling_multiplier,
    weekly_need_mm,
)
from hydraulics.watering.restrictions import Restrictions
from hydraulics.watering.zone import ZoneWater

Cases = Sequence[tuple[str, tuple[str, ...]]]
# common practice, no source: a week that wants less than this is left to the soil
LEAST_WEEK_MM = 1.0


@dataclass(frozen=True)
class Choices:
    """``rain_share`` of the rain counts; ``multiplier`` is how uneven water is made up for."""

    rain_share: float = RAIN_SHARE
    multiplier: Literal["scheduling", "low_quarter"] = "scheduling"

    def factor(self, zone: ZoneWater) -> float:
        if self.multiplier == "scheduling":
            return scheduling_multiplier(zone.du)
        try:
            return low_quarter_multiplier(zone.du)
        except NoRate as error:
            raise NoRate(f"zone {zone.name}: {error}") from None


@dataclass(frozen=True)
class ZoneProgramme:
    """A zone in a month. ``needed_min`` is a week's exact time; the whole minutes are what is set."""

    zone: str
    need_mm: float  # a week, without the extra for uneven water
    needed_min: float  # a week
    days: int  # a week
    cycles_min: tuple[int, ...]  # on each of its days
    soak_min: int
    week_l: float
    month_l: float

    @property
    def day_min(self) -> int:
        return sum(self.cycles_min)

    @property
    def week_min(self) -> int:
        return self.days * self.day_min


@dataclass(frozen=True)
class MonthProgramme:
    """``weekdays`` by case; ``busiest`` is the longest day of the week."""

    climate: MonthClimate
    zones: tuple[ZoneProgramme, ...]
    weekdays: Mapping[str, tuple[int, ...]]
    busiest: WateringDay
    window_min: int

    @property
    def litres(self) -> float:
        return sum(zone.month_l for zone in self.zones)

    @property
    def week_l(self) -> float:
        return sum(zone.week_l for zone in self.zones)

    @property
    def fits(self) -> bool:
        return self.busiest.total_min <= self.window_min

    @property
    def is_wet(self) -> bool:
        """Whether anything runs at all."""
        return any(zone.week_min for zone in self.zones)


def month_programme(
    climate: MonthClimate, zones: Sequence[ZoneWater], cases: Cases, rules: Restrictions, choices: Choices
) -> MonthProgramme:
    """The programme with the fewest days that soil and roots allow, and more days where hours are short."""
    by_id = {zone.id: zone for zone in zones}
    placed = _first_cases(cases, by_id)
    built = _with_days(climate, placed, rules, choices, 0)
    most = len(rules.weekdays) - 1
    # Where the week itself is too short, no number of days between makes it fit.
    first = most if _week_run_min(built, placed) > rules.window_min * len(rules.weekdays) else 1
    for more in range(max(first, 1), most + 1):
        if built.fits:
            break
        built = _with_days(climate, placed, rules, choices, more)
    return built


def _week_run_min(month: MonthProgramme, placed: Sequence[tuple[str, list[ZoneWater]]]) -> int:
    """Minutes that water runs in a week, cases one after another, soaks not counted."""
    minutes = {zone.zone: zone.week_min for zone in month.zones}
    return sum(max(minutes[zone.id] for zone in zones) for _, zones in placed)


def _first_cases(cases: Cases, zones: Mapping[str, ZoneWater]) -> list[tuple[str, list[ZoneWater]]]:
    """Each zone in the first case that opens it, and alone where none does."""
    placed: list[tuple[str, list[ZoneWater]]] = []
    seen: set[str] = set()
    alone = [(zone.id, (zone.id,)) for zone in zones.values()]
    for label, names in (*cases, *alone):
        fresh = [zones[name] for name in names if name in zones and name not in seen]
        seen.update(zone.id for zone in fresh)
        if fresh:
            placed.append((label, fresh))
    return placed


def _with_days(
    climate: MonthClimate,
    placed: Sequence[tuple[str, list[ZoneWater]]],
    rules: Restrictions,
    choices: Choices,
    more_days: int,
) -> MonthProgramme:
    programmes: list[ZoneProgramme] = []
    runs: list[tuple[CaseRun, int]] = []
    for label, zones in placed:
        days = max(_least_days(climate, zone, choices) for zone in zones)
        days = min(days + more_days, len(rules.weekdays)) if days else 0
        own = [_zone_programme(climate, zone, days, choices) for zone in zones]
        programmes += own
        runs.append((_case_run(label, own), days))
    weekdays = _spread(runs, rules)
    busiest = max((order_day(day) for day in _days(runs, weekdays)), key=lambda day: day.total_min)
    return MonthProgramme(climate, tuple(programmes), weekdays, busiest, rules.window_min)


def _least_days(climate: MonthClimate, zone: ZoneWater, choices: Choices) -> int:
    """Days a week on which no watering brings more than the roots can hold; 0 where none is needed."""
    return math.ceil(_week_need_mm(climate, zone, choices) / zone.usable_mm - 1e-9)


def _week_need_mm(climate: MonthClimate, zone: ZoneWater, choices: Choices) -> float:
    """Depth to bring in a week; none where it is not worth opening a valve."""
    need = weekly_need_mm(climate, zone.factor, choices.rain_share)
    return need if need >= LEAST_WEEK_MM else 0.0


def _zone_programme(climate: MonthClimate, zone: ZoneWater, days: int, choices: Choices) -> ZoneProgramme:
    need = _week_need_mm(climate, zone, choices)
    exact = run_minutes(need, zone.mm_per_hour, choices.factor(zone))
    days = days if exact > 0 else 0
    # Rounded up, so that a dry spot never comes from the clock.
    day_min = math.ceil(exact / days - 1e-9) if days else 0
    limit = zone.cycle
    week_l = days * day_min * zone.flow_lpm
    return ZoneProgramme(
        zone=zone.id,
        need_mm=need,
        needed_min=exact,
        days=days,
        cycles_min=split_cycles(day_min, limit.longest_min),
        soak_min=limit.soak_min,
        week_l=week_l,
        month_l=week_l * climate.days / 7,
    )


def _case_run(label: str, zones: Sequence[ZoneProgramme]) -> CaseRun:
    """Zones open together: each round lasts as long as the longest of them."""
    rounds = zip_longest(*(zone.cycles_min for zone in zones), fillvalue=0)
    soak = max((zone.soak_min for zone in zones if len(zone.cycles_min) > 1), default=0)
    return CaseRun(label, tuple(max(minutes) for minutes in rounds), soak)


def _spread(runs: Iterable[tuple[CaseRun, int]], rules: Restrictions) -> dict[str, tuple[int, ...]]:
    """Weekdays of each case, the longest first, each laid where the fullest day stays least full."""
    load = dict.fromkeys(rules.weekdays, 0)
    found: dict[str, tuple[int, ...]] = {}
    for run, days in sorted(runs, key=lambda pair: -pair[0].minutes):
        if not days:
            continue
        choices = [rules.spread(days, shift) for shift in range(len(rules.weekdays))]
        best = min(choices, key=lambda chosen: sorted((load[day] for day in chosen), reverse=True))
        for day in best:
            load[day] += run.minutes
        found[run.case] = best
    return found


def _days(
    runs: Sequence[tuple[CaseRun, int]], weekdays: Mapping[str, tuple[int, ...]]
) -> list[tuple[CaseRun, ...]]:
    """The runs of each weekday, each different set once; an empty one where nothing runs."""
    sets = {tuple(run for run, _ in runs if day in weekdays.get(run.case, ())) for day in range(7)}
    return sorted(sets, key=lambda day: [run.case for run in day])
