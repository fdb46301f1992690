"""The supply chart shows how sure the curve is, and what each case has to spare."""

import dataclasses

import pytest

from design.drawing.charts import supply_chart
from design.report import SupplyBand
from tests.design.book import site_plan, site_report


def groups(kind, report=None):
    drawing = supply_chart(site_plan("s1"), report or site_report("s1"))
    return [group for group in drawing.groups if group.kind == kind]


def test_the_band_lies_round_the_curve():
    (band,), (curve,) = groups("band"), groups("curve")
    ring, line = band.shapes[0].rings[0], curve.shapes[0].points
    for x, y in line[1:-1]:
        at = [py for px, py in ring if abs(px - x) < 15]
        if len(at) >= 2:
            assert min(at) - 3 <= y <= max(at) + 3


def test_no_band_is_drawn_where_nothing_was_measured():
    report = site_report("s1")
    guessed = dataclasses.replace(report, supply=dataclasses.replace(report.supply, band=()))
    assert groups("band", guessed) == []
    one = dataclasses.replace(report.supply, band=(SupplyBand(0, 440, 460),))
    assert groups("band", dataclasses.replace(report, supply=one)) == []


def test_each_case_shows_what_it_has_to_spare():
    report = site_report("s1")
    spares = groups("spare")
    assert len(spares) == len(report.cases)
    for group, case in zip(spares, report.cases, strict=True):
        assert case.label in group.title
        (_, top), (_, bottom) = group.shapes[0].points
        assert bottom - top > 0
    assert report.cases[0].spare_kpa == pytest.approx(
        min(head.pressure_kpa for head in report.cases[0].heads) - 250, abs=1e-6
    )
