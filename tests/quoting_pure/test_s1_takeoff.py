"""The plain rectangle of 24 x 12 m with fifteen heads: quantities counted by hand.

Source of the counting rules: common practice, no source. The counts follow from the drawing.
"""

from decimal import Decimal

import pytest

from design.check import check
from quoting.takeoff import TakeOff, take_off
from tests.quoting_pure.builders import load_book, load_s1, make_report

LATERALS = {"L1", "L2", "L3", "L4"} | {f"L{row}{n}" for row in "ABC" for n in range(1, 5)}


@pytest.fixture(scope="module", params=["measured here", "by the check"])
def s1(request: pytest.FixtureRequest) -> TakeOff:
    """Once with a report that is plain geometry, once with that of the check itself."""
    plan, book = load_s1(), load_book()
    report = make_report(plan) if request.param == "measured here" else check(plan, book)
    return take_off(plan, report, book)


def test_pipe_is_86_metres_of_lateral_and_sixteen_sticks(s1: TakeOff) -> None:
    plan = load_s1()
    report = make_report(plan)
    assert sum(p.length_m for p in report.pipes if p.id in LATERALS) == pytest.approx(86)
    (pipe,) = s1.of("pipe")
    assert (pipe.part, pipe.quantity, pipe.unit, pipe.measure) == ("pvc-25", 16, "stick", 96)
    assert pipe.net == Decimal("86.4")  # and 0.4 m of main beside the valves


def test_trench_of_the_laterals_is_85_metres_for_one_metre_is_shared(s1: TakeOff) -> None:
    (shallow,) = [q for q in s1.of("trench_machine") if q.key == "trench/machine/0.3/loam"]
    assert shallow.net == Decimal("85.0")


def test_thirteen_tees_three_end_elbows_and_no_coupling(s1: TakeOff) -> None:
    assert s1.net("tee", "threaded_tee") == 13
    zone_of_row_b = {"B1", "B2", "B3", "B4", "B5"}
    at_tees = [place for q in s1.of("tee", "threaded_tee") for place in q.where]
    assert sum(place in zone_of_row_b for place in at_tees) == 4
    assert sum(place not in zone_of_row_b for place in at_tees) == 9
    assert s1.net("threaded_elbow") == 3
    assert set(s1.where("threaded_elbow")) == {"A5", "B5", "C5"}
    assert s1.of("coupling", "elbow_90", "elbow_45", "cap") == ()


def test_one_swing_joint_per_head(s1: TakeOff) -> None:
    assert s1.net("swing_joint") == s1.net("head") == 15
    assert [q.quantity for q in s1.of("swing_joint")] == [15]


def test_the_manifold_stands_apart_from_the_tees(s1: TakeOff) -> None:
    assert (s1.net("manifold_tee"), s1.net("manifold_elbow")) == (1, 1)
    assert s1.net("valve") == 2
    assert s1.net("isolation_valve") == 1
    assert sorted(q.part or "" for q in s1.of("valve_box")) == ["box-round", "box-standard"]


def test_adapters_two_per_valve_two_at_the_isolation_valve_one_at_the_connection(s1: TakeOff) -> None:
    assert s1.net("adapter") == 2 * 2 + 2 + 1


def test_nothing_is_missing_from_the_demo_book(s1: TakeOff) -> None:
    assert s1.missing == ()


def test_each_quantity_says_where_it_comes_from_and_how_it_was_counted(s1: TakeOff) -> None:
    plan = load_s1()
    ids = {e.id for e in (*plan.layout.nodes, *plan.layout.pipes, *plan.layout.cables)}
    for quantity in s1.quantities:
        assert quantity.how
        assert quantity.where
        assert set(quantity.where) <= ids
