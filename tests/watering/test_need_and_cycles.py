"""Minutes from depths, the extra for uneven water, and cycle and soak, against published pages."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hydraulics.units import L_PER_US_GAL, M_PER_FT
from hydraulics.watering import (
    MonthClimate,
    cycle_limit,
    low_quarter_multiplier,
    run_minutes,
    scheduling_multiplier,
    split_cycles,
    water_budget,
    weekly_need_mm,
)
from hydraulics.watering.need import NoRate, monthly_need_mm
from hydraulics.watering.soil import SOILS, intake_mm_per_hour, slope_class, usable_mm

IN = 25.4


def test_aurora_water_weekly_and_daily_minutes():
    """Aurora Water (Colorado), watering times, area 1: 1.25 in a week at 1.5 in/h, two days."""
    week = run_minutes(1.25 * IN, 1.5 * IN)
    assert week == pytest.approx(50)
    assert week / 2 == pytest.approx(25)


def test_aurora_water_three_cycles():
    """Same page: 15 minutes as three cycles of 5 minutes."""
    assert split_cycles(15, 5) == (5, 5, 5)


def test_texas_page_minutes_on_three_days():
    """A Texas lawn-watering page (publisher not established): 0.20 in a day at 0.50 in/h."""
    day = run_minutes(0.20 * IN, 0.50 * IN)
    assert day == pytest.approx(24)
    assert 7 * day == pytest.approx(168)
    assert 7 * day / 3 == pytest.approx(56)


def test_extra_for_uneven_water():
    """ETo 0.20 in a day, factor 0.8, 1.5 in/h, DUlq 0.65: worked by hand; multipliers from memory."""
    depth = 0.20 * IN * 0.8
    assert run_minutes(depth, 1.5 * IN) == pytest.approx(6.400, abs=0.0005)
    assert run_minutes(depth, 1.5 * IN, scheduling_multiplier(0.65)) == pytest.approx(8.101, abs=0.0005)
    assert run_minutes(depth, 1.5 * IN, low_quarter_multiplier(0.65)) == pytest.approx(9.846, abs=0.0005)


def test_epa_water_budget():
    """EPA WaterSense water budget, 5 in on 1000 ft2; formula from memory, 0.6233 gal/ft2 in rounded."""
    budget = water_budget(5 * IN, 1000 * M_PER_FT**2)
    assert budget.baseline_l / L_PER_US_GAL == pytest.approx(3116.5, rel=2e-4)
    assert budget.allowance_l / L_PER_US_GAL == pytest.approx(2181.55, rel=2e-4)


# "Soil assessment", Landscape Management magazine, 19 March 2018, which names USDA; in/h,
# covered and bare, slopes 0-5, 5-8, 8-12 %
USDA_ROWS = {
    "sand": ((2, 2), (2, 1.5), (1.5, 1)),
    "sandy_loam": ((1.75, 1), (1.25, 0.8), (1, 0.6)),
    "loam": ((1, 0.5), (0.8, 0.4), (0.6, 0.3)),
    "clay_loam": ((0.2, 0.15), (0.15, 0.1), (0.12, 0.08)),
    "clay": ((0.2, 0.15), (0.15, 0.1), (0.12, 0.08)),
}


@pytest.mark.parametrize("soil", USDA_ROWS)
@pytest.mark.parametrize(("place", "slope_pct"), [(0, 3), (1, 6), (2, 10)])
def test_greatest_rates_of_the_usda_table(soil, place, slope_pct):
    covered, bare = USDA_ROWS[soil][place]
    assert intake_mm_per_hour(soil, slope_pct, True) == pytest.approx(covered * IN)
    assert intake_mm_per_hour(soil, slope_pct, False) == pytest.approx(bare * IN)


# FAO Irrigation Water Management Training Manual 5, annex 2, as quoted by others; sand from memory
@pytest.mark.parametrize(
    ("soil", "least", "most"),
    [("sandy_loam", 20, 30), ("loam", 10, 20), ("clay_loam", 5, 10), ("clay", 1, 5)],
)
def test_basic_intake(soil, least, most):
    assert SOILS[soil].basic_mm_per_hour == (least, most)


@pytest.mark.parametrize(("slope", "place"), [(0, 0), (5, 0), (5.1, 1), (8, 1), (12, 2), (12.1, 3), (40, 3)])
def test_slope_classes(slope, place):
    assert slope_class(slope) == place


def test_a_slow_rate_needs_no_cycles():
    limit = cycle_limit(10.0, "loam", 2, True)
    assert limit.longest_min is None
    assert split_cycles(47, limit.longest_min) == (47,)


def test_a_fast_rate_on_sloping_clay_is_cut_as_the_page_has_it():
    """Clay at 6 %, 1.5 in/h: 3.8 mm lie, 38.1 fall and 3.81 sink an hour, so 6.65 min at most.

    Fifteen minutes become three cycles of five with 50 minutes between; Aurora Water's page asks
    for that number of cycles and a soak of 45 to 60 minutes.
    """
    limit = cycle_limit(1.5 * IN, "clay", 6, True)
    assert limit.longest_min == pytest.approx(60 * 3.8 / (38.1 - 3.81))
    assert split_cycles(15, limit.longest_min) == (5, 5, 5)
    assert 45 <= limit.soak_min <= 60


def test_usable_water_of_a_root_space():
    """Loam holds 0.155 m/m (FAO-56 table 19, middle, from memory); half of 15 cm of it: 11.6 mm."""
    assert usable_mm("loam", 0.15) == pytest.approx(11.625)


def test_rain_can_cover_the_need():
    assert monthly_need_mm(MonthClimate(1, 20, 100), 0.8) == 0


def test_a_week_is_its_part_of_the_month():
    """July: 0.8 x 155 - 0.5 x 62 = 93 mm in 31 days, 21 mm in seven."""
    assert weekly_need_mm(MonthClimate(7, 155, 62), 0.8, 0.5) == pytest.approx(21.0)


@pytest.mark.parametrize("rate", [0, -1, float("nan")])
def test_no_rate_no_minutes(rate):
    with pytest.raises(NoRate):
        run_minutes(10, rate)


@pytest.mark.parametrize("du", [-0.1, 1.1, float("nan")])
def test_a_uniformity_that_is_no_share(du):
    with pytest.raises(NoRate):
        scheduling_multiplier(du)


def test_a_dry_quarter_has_no_low_quarter_multiplier():
    with pytest.raises(NoRate, match="driest quarter"):
        low_quarter_multiplier(0)


@given(st.floats(0.01, 500), st.floats(0.1, 500), st.floats(0.1, 10))
def test_minutes_fall_as_the_rate_rises(depth, rate, times):
    assert run_minutes(depth, rate * times) == pytest.approx(run_minutes(depth, rate) / times)


@given(st.integers(0, 3000), st.one_of(st.none(), st.floats(0.05, 500)))
def test_cycles_add_up_and_stay_within_the_longest(minutes, longest):
    cycles = split_cycles(minutes, longest)
    assert sum(cycles) == minutes
    assert all(cycle >= 1 for cycle in cycles)
    if longest is not None and cycles:
        assert max(cycles) <= max(longest, 1)
        assert max(cycles) - min(cycles) <= 1


@given(st.floats(0, 1))
def test_both_multipliers_agree_on_even_water_only(du):
    assert 1 <= scheduling_multiplier(du) <= 2.5
    if du > 0.01:
        assert scheduling_multiplier(du) <= low_quarter_multiplier(du) * (1 + 1e-12)
