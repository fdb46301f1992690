"""Drip on two terraces, and a path to bore under. Computed from the coordinates; tolerance 1 %."""

from functools import cache

import pytest

from design.drip import lay_drip, row_offsets
from hydraulics.catalogue import DripPart
from tests.design.book import BOOK, site_plan, site_report


@cache
def report():
    return site_report("s3")


def layouts():
    part = BOOK.need("drip-2.0", DripPart)
    return {area.id: lay_drip(area, part) for area in site_plan("s3").ground.areas}


def test_rows_and_emitters_of_the_two_beds():
    """The count must not lose a row to binary floats: 2.8 / 0.4 is 6.999..."""
    upper, lower = layouts()["T"], layouts()["L"]
    assert (len(upper.rows), upper.emitters, upper.flow_lpm) == (8, 480, pytest.approx(16.0))
    assert (len(lower.rows), lower.emitters, lower.flow_lpm) == (10, 360, pytest.approx(12.0))
    assert upper.length_m + lower.length_m == pytest.approx(280)
    assert upper.mm_per_hour == pytest.approx(15.15, abs=0.01)


@pytest.mark.parametrize(("width", "rows"), [(3.0, 8), (4.0, 10), (0.2, 1), (0.1, 1), (0.6, 2), (0.59, 1)])
def test_rows_across_a_bed(width, rows):
    assert len(row_offsets(width, BOOK.need("drip-2.0", DripPart))) == rows


def test_a_hole_cuts_the_rows_that_pass_it():
    area = site_plan("s3").ground.areas[0]
    holed = area.model_copy(update={"holes": [[(5.0, 1.0), (10.0, 1.0), (10.0, 2.0), (5.0, 2.0)]]})
    part = BOOK.need("drip-2.0", DripPart)
    whole, cut = lay_drip(area, part), lay_drip(holed, part)
    passing = sum(1 for row in cut.rows if len(row) == 2)
    assert passing in (2, 3)
    assert cut.length_m == pytest.approx(whole.length_m - 5 * passing)


def test_design_flow_and_flows():
    assert report().supply.design_flow_lpm == pytest.approx(22.5)
    assert [case.flow_lpm for case in report().cases] == pytest.approx([16, 12], rel=0.01)


def test_pressure_at_the_two_inlets():
    assert [case.worst_head_kpa for case in report().cases] == pytest.approx([238, 318], rel=0.01)


def test_the_route_to_the_lower_bed_is_8_8_m_open_and_1_2_m_bored():
    own = [stretch for stretch in report().trench if stretch.pipes == ("L2",)]
    assert sum(s.length_m for s in own if s.method == "machine") == pytest.approx(8.8)
    assert sum(s.length_m for s in own if s.method == "bore") == pytest.approx(1.2)
    (sleeve,) = report().sleeves
    assert sleeve.bored_m == pytest.approx(1.2)
    assert sleeve.sleeve_m == pytest.approx(1.8)


def test_a_vacuum_breaker_below_the_upper_bed_is_refused():
    """It would have to sit 0.3 m above an outlet that lies 4 m above the tap."""
    from design.check import check

    plan = site_plan("s3")
    supply = plan.supply.model_copy(update={"backflow": "pvb-25"})
    found = check(plan.model_copy(update={"supply": supply}), BOOK).findings
    (low,) = [f for f in found if f.code == "backflow.height.low"]
    assert low.limit == pytest.approx(4.3)
    assert low.severity == "stop"
