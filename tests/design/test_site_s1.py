"""A plain rectangle of 24 m x 12 m, from its readings to its metres.

Figures worked by hand from the readings, with Hazen–Williams at C 150 (common practice, no
source for the layout; tolerance 1 %).
"""

from functools import cache

import numpy as np
import pytest

from design.sharing import distances
from design.site import Site
from design.solving import solve_site
from hydraulics.findings import Severity
from hydraulics.limits import DEFAULT_LIMITS
from tests.design.book import BOOK, site_plan, site_report

ONE_PERCENT = 0.01


@cache
def report():
    return site_report("s1")


def case(label):
    return next(case for case in report().cases if case.label == label)


def test_design_flow_is_three_quarters_of_the_tested_flow():
    caps = {cap.name: cap.flow_lpm for cap in report().supply.limits}
    assert report().supply.design_flow_lpm == pytest.approx(30.0)
    assert report().supply.binding == "bucket_share"
    assert caps["service_velocity"] == pytest.approx(47.8, abs=0.05)


def test_fifteen_heads_in_two_zones_of_24_litres_a_minute():
    assert [len(zone.heads) for zone in report().zones] == [10, 5]
    assert [zone.flow_lpm for zone in report().zones] == pytest.approx([24, 24], rel=ONE_PERCENT)
    assert [zone.mm_per_hour for zone in report().zones] == pytest.approx([10, 10], rel=ONE_PERCENT)


def test_pressure_at_the_connection_and_at_the_worst_head():
    middle = case("Middle row")
    assert middle.connection_kpa == pytest.approx(407, rel=ONE_PERCENT)
    assert middle.worst_head == "B5"
    assert middle.worst_head_kpa == pytest.approx(300, rel=ONE_PERCENT)


def test_velocities_of_the_first_edge_and_from_the_valve():
    speeds = {pipe.id: pipe for pipe in case("Middle row").pipes}
    assert speeds["LB1"].flow_lpm == pytest.approx(21, rel=ONE_PERCENT)
    assert speeds["LB1"].velocity_mps == pytest.approx(1.07, rel=ONE_PERCENT)
    assert speeds["L4"].velocity_mps == pytest.approx(1.22, rel=ONE_PERCENT)


def test_the_lateral_loses_72_centimetres_of_water_by_friction():
    """First to last head, 20.4 mm bore, 21, 15, 9 and 3 L/min, without fittings."""
    from hydraulics.friction import hazen_williams_kpa

    metres = sum(hazen_williams_kpa(flow, 6.0, 20.4, 150) for flow in (21, 15, 9, 3)) / 9.80665
    assert metres == pytest.approx(0.72, rel=ONE_PERCENT)


def test_pipe_and_trench_metres():
    """86 m of pipe and 85 m of trench behind the manifold; 1 m is shared."""
    pipe_m = sum(pipe.length_m for pipe in report().pipes if pipe.role == "lateral")
    trench_m = sum(stretch.length_m for stretch in report().trench if stretch.role == "lateral")
    shared = [stretch for stretch in report().trench if len(stretch.pipes) == 2 and stretch.role == "lateral"]
    assert pipe_m == pytest.approx(86.0)
    assert trench_m == pytest.approx(85.0)
    assert [stretch.length_m for stretch in shared] == pytest.approx([1.0])
    assert sum(pipe.length_m for pipe in report().pipes) == pytest.approx(86, rel=ONE_PERCENT)
    assert sum(stretch.length_m for stretch in report().trench) == pytest.approx(85, rel=ONE_PERCENT)


def test_every_half_metre_cell_is_reached_by_two_heads():
    solved = solve_site(Site(site_plan("s1"), BOOK, DEFAULT_LIMITS))
    heads = list(solved.reaching.values())
    x, y = np.meshgrid(np.arange(0.25, 24, 0.5), np.arange(0.25, 12, 0.5))
    cells = np.column_stack([x.ravel(), y.ravel()])
    distance, in_arc = distances(heads, cells)
    throw = np.array([head.throw_m for head in heads])
    seen = (in_arc & (distance <= throw)).sum(axis=1)
    assert len(heads) == 15
    assert seen.min() >= 2


def test_the_whole_lawn_is_watered_twice():
    (lawn,) = report().areas
    assert lawn.area_m2 == pytest.approx(288)
    assert lawn.twice_m2 == pytest.approx(288)


def test_no_head_is_short_and_nothing_stops_the_job():
    assert not report().stops
    assert not [found for found in report().findings if found.code.startswith("head.")]
    assert all(head.needed_m <= head.reach_m for case in report().cases for head in case.heads)
    # the corner of a 6 m square is farthest from its four heads
    assert case("Middle row").heads[1].needed_m == pytest.approx(18**0.5)


def test_a_weaker_supply_is_stopped():
    plan = site_plan("s1")
    supply = plan.supply.model_copy(update={"static_kpa": 360.0})
    from design.check import check

    found = check(plan.model_copy(update={"supply": supply}), BOOK).findings
    assert "head.pressure.low" in {f.code for f in found if f.severity == Severity.STOP}
