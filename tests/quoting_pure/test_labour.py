"""Hours worked out by hand from the usual rates (rates: common practice, no source)."""

import math
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from design.report import CheckReport
from quoting.labour import (
    LabourLine,
    LabourSettings,
    crew_days,
    days_on_site,
    labour_lines,
    plant_lines,
)
from quoting.production_rates import DEFAULT_RATES, ProductionRate, hours_for
from quoting.takeoff import TakeOff, take_off
from tests.quoting_pure.builders import load_book, load_s1, make_plan, make_report
from tests.quoting_pure.small_layouts import stretch

D = Decimal
BARE = LabourSettings(carrying_share=D(0), setup_hours=D(0), travel_hours=D(0), smallest_job_days=D(0))


def s1() -> tuple[TakeOff, CheckReport]:
    plan = load_s1()
    report = make_report(plan)
    return take_off(plan, report, load_book()), report


def hours(lines: tuple[LabourLine, ...]) -> dict[str, Decimal]:
    return {line.work: line.hours for line in lines}


def dug(trench: tuple[Any, ...], **settings: Any) -> dict[str, Decimal]:
    plan = make_plan(nodes=[{"id": "S", "kind": "supply", "at": [0, 0]}])
    report = make_report(plan, trench=trench)
    takeoff = TakeOff(())
    return hours(labour_lines(takeoff, report, DEFAULT_RATES, replace(BARE, **settings)))


@pytest.mark.parametrize(
    ("amount", "rate", "measure", "expected"),
    [
        ("85.3", "30", "m/h", "2.843"),
        ("15", "14", "min each", "3.5"),
        ("2", "4", "h each", "8"),
        ("27", "10", "m2/h", "2.7"),
    ],
)
def test_a_rate_gives_hours_by_its_measure(amount: str, rate: str, measure: str, expected: str) -> None:
    assert round(hours_for(D(amount), D(rate), measure), 3) == D(expected)


def test_an_unknown_measure_is_refused() -> None:
    with pytest.raises(ValueError, match="furlongs"):
        hours_for(D(1), D(1), "furlongs")


def test_the_plain_rectangle_takes_the_hours_that_its_quantities_say() -> None:
    """85.3 m at 30 m/h; the same at 25; 86.4 m at 30; 15 heads at 14 min; 2 valves at 40; 17 points
    at 4 min; 15 heads at 6 min; 2 zones at 20 min."""
    got = hours(labour_lines(*s1(), DEFAULT_RATES, BARE))
    assert got["trench-machine"] == D("2.84")
    assert got["backfill"] == D("3.41")
    assert got["pipe-stick"] == D("2.88")
    assert got["head"] == D("3.50")
    assert got["valve"] == D("1.33")
    assert got["stake-point"] == D("1.13")
    assert got["flush-head"] == D("1.50")
    assert got["flush-zone"] == D("0.67")
    assert (got["controller"], got["pressure-test"], got["handover"]) == (2, D("0.5"), 2)


def test_the_good_and_the_bad_day_stand_beside_the_usual_one() -> None:
    (trench,) = [line for line in labour_lines(*s1(), DEFAULT_RATES, BARE) if line.work == "trench-machine"]
    assert (trench.good_hours, trench.hours, trench.bad_hours) == (D("1.71"), D("2.84"), D("8.53"))


def test_a_company_that_knows_its_own_rate_uses_it() -> None:
    own = replace(DEFAULT_RATES["trench-machine"], value=D(20))
    got = hours(labour_lines(*s1(), {**DEFAULT_RATES, "trench-machine": own}, BARE))
    assert got["trench-machine"] == D("4.27")  # 85.3 / 20


def test_a_rate_that_is_missing_is_named() -> None:
    rates = {work: rate for work, rate in DEFAULT_RATES.items() if work != "backfill"}
    with pytest.raises(LookupError, match="backfill"):
        labour_lines(*s1(), rates, BARE)


def test_a_rate_of_zero_is_refused() -> None:
    with pytest.raises(ValueError, match="above zero"):
        ProductionRate("x", "X", "m/h", D(1), D(0), D(1), D(1))


def test_carrying_set_up_and_travel_come_on_top() -> None:
    """Net hours and an eighth; with 1.5 h of each 8 h day gone, 2 people do 13 h a day."""
    lines = labour_lines(*s1(), DEFAULT_RATES, LabourSettings())
    got = hours(lines)
    net = sum(h for work, h in got.items() if work not in ("carrying", "set-up", "travel"))
    assert got["carrying"] == round(net / 8, 2)
    days = math.ceil((net + got["carrying"]) / 13)
    assert (got["set-up"], got["travel"]) == (days * 2, days)


def test_no_job_is_below_a_day_of_the_crew() -> None:
    plan = make_plan(
        nodes=[{"id": "S", "kind": "supply", "at": [0, 0]}, {"id": "E", "kind": "junction", "at": [3, 0]}],
        pipes=[{"id": "P", "from": "S", "to": "E", "part": "pvc-25"}],
    )
    report = make_report(plan)
    lines = labour_lines(take_off(plan, report, load_book()), report, DEFAULT_RATES)
    assert sum(line.hours for line in lines) == 2 * 8
    assert "smallest-job" in hours(lines)


def test_nothing_to_do_takes_no_time() -> None:
    plan = make_plan(nodes=[{"id": "S", "kind": "supply", "at": [0, 0]}])
    assert labour_lines(TakeOff(()), make_report(plan), DEFAULT_RATES) == ()


def test_digging_beside_a_service_goes_at_its_own_rate_and_deeper_is_slower() -> None:
    """1 m/h at 0.30 m; at 0.45 m the rate is 0.6 of that."""
    assert dug((stretch("T", 3, "hand"),))["trench-near-service"] == D("3.00")
    assert dug((stretch("T", 3, "hand", depth_m=0.45),))["trench-near-service"] == D("5.00")


@pytest.mark.parametrize(
    ("soil", "expected"), [("loam", "1.00"), ("clay", "1.50"), ("clay_loam", "1.25"), ("", "1.50")]
)
def test_hard_or_unknown_soil_takes_longer(soil: str, expected: str) -> None:
    assert dug((stretch("T", 30, "machine", soil=soil),))["trench-machine"] == D(expected)


def test_where_no_machine_gets_in_everything_is_dug_by_hand() -> None:
    got = dug((stretch("T", 30, "machine"),), machine_access=False)
    assert "trench-machine" not in got
    assert got["trench-hand"] == D("12.00")  # 30 / 2.5


def test_a_bore_is_not_dug() -> None:
    assert dug((stretch("T", 1.2, "bore"),)) == {}


@pytest.mark.parametrize(("net", "days"), [("0", 0), ("13", 1), ("13.01", 2), ("33.5", 3)])
def test_days_are_whole_and_leave_time_for_set_up_and_travel(net: str, days: int) -> None:
    assert crew_days(D(net), LabourSettings()) == days


@pytest.mark.parametrize(
    ("net", "days"), [("0", 0), ("0.5", 1), ("13", 1), ("13.65", 1), ("13.66", 2), ("65.04", 5), ("65.66", 6)]
)
def test_nobody_drives_out_once_more_for_a_twentieth_of_a_day(net: str, days: int) -> None:
    """Two people do 13 h a day; up to 0.65 h left over are done before (common practice, no source)."""
    assert days_on_site(D(net), LabourSettings()) == days


def test_without_that_setting_every_day_begun_counts() -> None:
    assert days_on_site(D("13.01"), LabourSettings(day_overrun_share=D(0))) == 2


def test_hours_say_how_much_at_what_rate() -> None:
    plan = make_plan(nodes=[{"id": "S", "kind": "supply", "at": [0, 0]}])
    report = make_report(plan, trench=(stretch("T", 30, "machine"),))
    told = {line.work: line.how for line in labour_lines(TakeOff(()), report, DEFAULT_RATES)}
    assert told["trench-machine"] == "30 m at 30 m/h; 50 on a good day, 10 on a bad one"


def test_a_day_of_nothing_but_travel_is_refused() -> None:
    with pytest.raises(ValueError, match="leave no time"):
        crew_days(D(1), LabourSettings(travel_hours=D(7)))


@pytest.mark.parametrize(("metres", "days"), [(10, "0.5"), (120, "0.5"), (121, "1"), (250, "1.5")])
def test_the_trencher_is_hired_by_the_half_day_and_for_half_a_day_at_least(metres: float, days: str) -> None:
    """30 m/h: 120 m are 4 h, half of a day of 8."""
    plan = make_plan(nodes=[{"id": "S", "kind": "supply", "at": [0, 0]}])
    report = make_report(plan, trench=(stretch("T", metres, "machine"),))
    (plant,) = plant_lines(labour_lines(TakeOff(()), report, DEFAULT_RATES))
    assert plant.days == D(days)


def test_every_line_of_hours_keeps_the_entities_that_it_is_for() -> None:
    assert all(line.where and line.how for line in labour_lines(*s1(), DEFAULT_RATES))
