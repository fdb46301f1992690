"""Plans laid into a year: the trade's sites, and zones that nothing is known of."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from design.check import check
from design.drawing import DrawingOptions, to_svg
from design.loading import load_plan
from design.watering import DRIP_DU, MOST_SPRAY_DU, plan_watering
from design.watering_chart import watering_chart
from design.watering_report import watering_to_dict
from hydraulics.catalogue import Catalogue
from hydraulics.watering.programme import Choices
from parts.price_book import read_parts
from tests.watering.zones import evenings, make_climate

ROOT = Path(__file__).resolve().parents[2]
BOOK = Catalogue.from_dicts(read_parts(json.loads((ROOT / "demo" / "price_book.json").read_text())))


def checked(name):
    plan = load_plan((ROOT / "tests" / "plans" / f"{name}.json").read_text())
    return plan, check(plan, BOOK)


def year_of(plan, report, **fields):
    return plan_watering(plan, report, make_climate(), fields.pop("rules", evenings()), Choices(**fields))


@pytest.mark.parametrize("name", ["s1", "s2", "s3"])
def test_every_zone_of_the_trade_sites_has_minutes(name):
    plan, report = checked(name)
    year = year_of(plan, report)
    assert {zone.id for zone in year.zones} == {zone.id for zone in report.zones}
    july = year.months[6]
    assert all(zone.week_min > 0 for zone in july.zones)
    json.dumps(watering_to_dict(year), allow_nan=False)


def test_a_zone_waters_what_its_flow_and_rate_say():
    """S1: 288 m2 of lawn in two zones; flow over rate gives the ground back."""
    plan, report = checked("s1")
    assert sum(zone.area_m2 for zone in year_of(plan, report).zones) == pytest.approx(288, rel=0.01)


def test_litres_are_the_flow_that_the_check_found():
    plan, report = checked("s1")
    flows = {zone.id: zone.flow_lpm for zone in report.zones}
    for month in year_of(plan, report).months:
        for zone in month.zones:
            assert zone.week_l == pytest.approx(zone.week_min * flows[zone.zone])


def test_uniformity_comes_from_the_areas_and_is_held_down():
    plan, report = checked("s1")
    worst = min(area.dulq_pct for area in report.areas)
    expected = min(worst / 100, MOST_SPRAY_DU)
    assert all(zone.du == pytest.approx(expected) for zone in year_of(plan, report).zones)


def test_drip_takes_its_own_uniformity_and_says_so():
    plan, report = checked("s3")
    year = year_of(plan, report)
    drips = [zone for zone in year.zones if zone.du == DRIP_DU]
    assert drips
    assert all(zone.du_is_assumed for zone in drips)
    assert {one.code for one in year.findings} >= {"watering.uniformity.assumed"}


def test_a_zone_without_a_rate_is_left_out_and_said():
    plan, report = checked("s1")
    first, *rest = report.zones
    unknown = replace(report, zones=(replace(first, mm_per_hour=None), *rest))
    year = year_of(plan, unknown)
    assert first.id not in {zone.id for zone in year.zones}
    found = next(one for one in year.findings if one.code == "watering.zone.left_out")
    assert found.where == (first.id,)


def test_a_plan_without_zones_has_an_empty_year():
    plan, report = checked("s1")
    year = year_of(plan, replace(report, zones=(), cases=()))
    assert year.litres == 0
    assert year.peak is None
    svg = to_svg(watering_chart(year, None, DrawingOptions(width=560, title="Water")))
    assert "nan" not in svg


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_chart_has_a_bar_for_each_wet_month_and_its_cap(units):
    plan, report = checked("s1")
    year = year_of(plan, report)
    drawing = watering_chart(year, 20_000, DrawingOptions(width=560, units=units, title="Water"))
    bars = [group for group in drawing.groups if group.kind == "bar"]
    assert bars[0].title.startswith("January: ")
    wet = [month for month in year.months if month.litres > 0]
    assert sum(len(group.shapes) == 3 for group in bars) == len(wet)
    assert any(group.kind == "cap" for group in drawing.groups)
    words = "5,283 US gal" if units == "us" else "20.0 m³"
    assert words in to_svg(drawing)
