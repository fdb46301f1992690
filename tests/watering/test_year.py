"""A year's programme: minutes, litres, days, hours, savings, and what is said when it does not fit."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hydraulics.watering import Climate, Restrictions, order_day, watering_year
from hydraulics.watering.climate import BadClimate, MonthClimate
from hydraulics.watering.day import CaseRun
from hydraulics.watering.need import NoRate
from hydraulics.watering.programme import Choices
from hydraulics.watering.restrictions import BadRestrictions
from tests.watering.zones import ETO_MM, RAIN_MM, evenings, make_climate, make_zone


def make_year(zones=None, cases=(), rules=None, choices=None, climate=None, flow=27.0):
    zones = zones or [make_zone()]
    return watering_year(
        climate or make_climate(), zones, cases, rules or evenings(), choices or Choices(), flow
    )


def test_july_by_hand():
    """0.8 x 96 - 0.5 x 45 = 54.3 mm, 12.26 a week; / (0.4 + 0.6 x 0.7) at 12 mm/h: 74.8 min.

    Loam under turf holds 11.6 mm for the roots, so two days of 38 minutes: 76 min, 1520 L a week.
    """
    july = make_year().months[6].zones[0]
    assert july.need_mm == pytest.approx(54.3 * 7 / 31)
    assert july.needed_min == pytest.approx(60 * 54.3 * 7 / 31 / 0.82 / 12)
    assert (july.days, july.cycles_min, july.week_min) == (2, (38,), 76)
    assert july.week_l == pytest.approx(76 * 20)
    assert july.month_l == pytest.approx(76 * 20 * 31 / 7)


def test_a_wet_month_waters_nothing():
    january = make_year().months[0]
    assert january.zones[0].week_min == 0
    assert january.litres == 0
    assert january.fits


def test_a_need_below_a_millimetre_a_week_is_left_to_the_soil():
    """March here: 0.8 x 35 - 0.5 x 55 = 0.5 mm in the whole month."""
    march = make_year().months[2].zones[0]
    assert (march.need_mm, march.needed_min, march.week_min) == (0, 0, 0)


def test_the_year_is_the_sum_of_its_months_and_of_its_zones():
    year = make_year([make_zone("V1"), make_zone("V2", cover="bed", soil="clay", mm_per_hour=30.0)])
    assert year.litres == pytest.approx(sum(month.litres for month in year.months))
    assert year.litres == pytest.approx(year.zone_litres("V1") + year.zone_litres("V2"))


def test_zones_of_one_case_run_side_by_side():
    zones = [make_zone("V1"), make_zone("V2")]
    together = make_year(zones, cases=[("Both", ("V1", "V2"))]).months[6].busiest
    apart = make_year(zones).months[6].busiest
    assert together.total_min == 38
    assert apart.total_min == 76


def test_cases_that_need_one_day_are_laid_on_different_days():
    zones = [make_zone(f"V{i}", mm_per_hour=6.0, soil="clay_loam", cover="bed") for i in range(3)]
    june = make_year(zones).months[5]
    assert sorted(june.weekdays.values()) == [(1,), (3,), (5,)]
    assert len({start.case for start in june.busiest.starts}) == 1


def test_short_hours_take_more_days_before_anything_is_said():
    slow = make_zone(mm_per_hour=4.0, cover="bed", soil="clay_loam")
    short = evenings(to_min=21 * 60)
    year = make_year([slow], rules=short)
    assert year.months[6].zones[0].days > make_year([slow]).months[6].zones[0].days
    assert year.months[6].fits


def test_hours_that_are_too_short_are_said_with_figures():
    year = make_year([make_zone(mm_per_hour=1.0)], rules=evenings(to_min=21 * 60))
    found = next(one for one in year.findings if one.code == "watering.hours.short")
    assert found.limit == 60
    assert found.measured == max(month.busiest.total_min for month in year.months) > 60
    assert "July" in found.sentence


def test_a_cap_is_held_against_each_month():
    over = make_year(rules=evenings(monthly_cap_l=5000))
    found = next(one for one in over.findings if one.code == "watering.cap.over")
    assert found.limit == 5000
    assert found.measured == pytest.approx(max(month.litres for month in over.months))
    enough = make_year(rules=evenings(monthly_cap_l=50_000))
    assert not [one for one in enough.findings if one.code == "watering.cap.over"]


def test_too_few_days_are_said_to_water_below_the_roots():
    year = make_year([make_zone(soil="sand")], rules=evenings(weekdays=(2,)))
    found = next(one for one in year.findings if one.code == "watering.depth.over")
    assert found.limit == pytest.approx(6.0)  # 0.08 x 150 mm x 0.5
    assert found.measured == pytest.approx(54.3 * 7 / 31)


def test_a_case_beyond_the_supply_is_said():
    year = make_year([make_zone("V1"), make_zone("V2")], cases=[("Both", ("V1", "V2"))], flow=27.0)
    found = next(one for one in year.findings if one.code == "watering.flow.over")
    assert (found.measured, found.limit, found.case) == (40.0, 27.0, "Both")


def test_uniformity_that_was_taken_is_told_apart_from_one_that_is_low():
    year = make_year([make_zone("V1", du=0.5), make_zone("V2", du=0.65, du_is_assumed=True)])
    codes = {one.where[0]: one.code for one in year.findings if "uniformity" in one.code}
    assert codes == {"V1": "watering.uniformity.low", "V2": "watering.uniformity.assumed"}


def test_every_saving_names_a_baseline_that_is_worked_out():
    year = make_year()
    flat, dry = year.savings
    peak = max(month.week_l for month in year.months)
    season = [month for month in year.months if month.litres]
    assert flat.baseline_l == pytest.approx(peak / 7 * sum(month.climate.days for month in season))
    rainless = make_year(choices=Choices(rain_share=0.0))
    same_months = [rainless.months[month.climate.month - 1] for month in season]
    assert dry.baseline_l == pytest.approx(sum(month.litres for month in same_months))
    assert flat.saved_l == pytest.approx(flat.baseline_l - year.litres)
    assert flat.saved_l > 0
    assert "peak month" in flat.baseline
    assert "rain" in dry.baseline


def test_no_need_no_saving():
    year = make_year(climate=make_climate([0] * 12))
    assert year.savings == ()
    assert year.peak is None
    assert year.peak_budget is None


def test_the_budget_is_of_the_peak_month_and_of_all_ground():
    """100 m2 and 96 mm: 9600 L, of which 70 %."""
    budget = make_year().peak_budget
    assert (budget.baseline_l, budget.allowance_l) == (pytest.approx(9600), pytest.approx(6720))


def test_low_quarter_asks_for_more_than_the_scheduling_multiplier():
    usual = make_year().months[6].zones[0].needed_min
    more = make_year(choices=Choices(multiplier="low_quarter")).months[6].zones[0].needed_min
    assert more / usual == pytest.approx((1 / 0.7) / (1 / 0.82))


def test_low_quarter_without_water_there_names_the_zone():
    with pytest.raises(NoRate, match="Corner"):
        make_year([make_zone(label="Corner", du=0.0)], choices=Choices(multiplier="low_quarter"))


def test_while_one_case_soaks_another_runs():
    day = order_day([CaseRun("A", (5, 5, 5), 50), CaseRun("B", (20,)), CaseRun("C", (20,))])
    assert [(start.case, start.begins_min) for start in day.starts] == [
        ("A", 0), ("B", 5), ("C", 25), ("A", 55), ("A", 110),
    ]  # fmt: skip
    assert day.total_min == 115


@given(
    st.lists(st.tuples(st.lists(st.integers(1, 30), min_size=1, max_size=5), st.integers(0, 60)), max_size=6)
)
def test_a_day_runs_each_cycle_once_one_at_a_time_and_soaks_between(rows):
    runs = [CaseRun(f"C{i}", tuple(cycles), soak) for i, (cycles, soak) in enumerate(rows)]
    day = order_day(runs)
    assert sum(start.minutes for start in day.starts) == sum(run.minutes for run in runs)
    for before, after in pairwise(day.starts):
        assert before.begins_min + before.minutes <= after.begins_min
    for run in runs:
        own = [start for start in day.starts if start.case == run.case]
        assert [start.minutes for start in own] == list(run.cycles_min)
        for before, after in pairwise(own):
            assert after.begins_min - before.begins_min - before.minutes >= run.soak_min
    soaks = sum(run.soak_min * (len(run.cycles_min) - 1) for run in runs)
    assert day.total_min <= sum(run.minutes for run in runs) + soaks


@settings(deadline=None, max_examples=40)
@given(
    rate=st.floats(0.5, 200), flow=st.floats(0.5, 200), du=st.floats(0, 1), slope=st.floats(0, 60),
    soil=st.sampled_from(["sand", "sandy_loam", "loam", "clay_loam", "clay"]),
    cover=st.sampled_from(["turf", "bed", "hedge", "vegetables", "pots"]),
    days=st.sets(st.integers(0, 6), min_size=1), times=st.floats(1, 8),
)  # fmt: skip
def test_what_holds_of_any_zone(rate, flow, du, slope, soil, cover, days, times):
    rules = Restrictions(tuple(sorted(days)), 20 * 60, 6 * 60)
    zone = make_zone(mm_per_hour=rate, flow_lpm=flow, du=du, slope_pct=slope, soil=soil, cover=cover)
    faster = make_zone(
        mm_per_hour=rate * times, flow_lpm=flow, du=du, slope_pct=slope, soil=soil, cover=cover
    )
    year, quick = make_year([zone], rules=rules), make_year([faster], rules=rules)
    for month, other in zip(year.months, quick.months, strict=True):
        one = month.zones[0]
        assert one.needed_min == pytest.approx(times * other.zones[0].needed_min)
        assert one.week_l == pytest.approx(one.week_min * flow)
        assert one.month_l == pytest.approx(one.week_min * flow * month.climate.days / 7)
        assert one.week_min >= one.needed_min - 1e-6
        assert one.week_min - one.needed_min <= one.days
        assert one.days <= len(days)
        assert set(month.weekdays.get("V1", ())) <= days
        assert math.isfinite(month.litres)


def test_hours_may_pass_midnight():
    assert Restrictions(from_min=22 * 60, to_min=6 * 60).window_min == 8 * 60
    assert Restrictions().window_min == 24 * 60


@pytest.mark.parametrize(("days", "expected"), [(1, (0,)), (2, (0, 3)), (3, (0, 2, 4)), (7, tuple(range(7)))])
def test_days_are_spread_over_the_week(days, expected):
    assert Restrictions().spread(days) == expected


@pytest.mark.parametrize(
    "wrong",
    [
        {"weekdays": ()},
        {"weekdays": (3, 1)},
        {"weekdays": (7,)},
        {"from_min": 60},
        {"from_min": 60, "to_min": 60},
        {"monthly_cap_l": 0.0},
        {"monthly_cap_l": float("nan")},
    ],
)
def test_restrictions_that_nobody_could_keep(wrong):
    with pytest.raises(BadRestrictions):
        Restrictions(**wrong)


@pytest.mark.parametrize(
    ("eto", "rain"),
    [
        (ETO_MM[:11], RAIN_MM),
        ([*ETO_MM, 5], [*RAIN_MM, 5]),
        ([-1, *ETO_MM[1:]], RAIN_MM),
        ([float("nan"), *ETO_MM[1:]], RAIN_MM),
        ([501, *ETO_MM[1:]], RAIN_MM),
        (ETO_MM, [float("inf"), *RAIN_MM[1:]]),
    ],
)
def test_a_climate_that_cannot_be(eto, rain):
    with pytest.raises(BadClimate):
        Climate.of(eto, rain)


def test_months_out_of_order_are_no_climate():
    rows = tuple(MonthClimate(month, 10, 10) for month in (2, 1, *range(3, 13)))
    with pytest.raises(BadClimate):
        Climate(rows)


@pytest.mark.parametrize("wrong", [{"cover": "moss"}, {"soil": "peat"}, {"flow_lpm": 0}, {"mm_per_hour": 0}])
def test_a_zone_that_nothing_can_be_worked_out_for(wrong):
    with pytest.raises(NoRate):
        make_zone(**wrong)
