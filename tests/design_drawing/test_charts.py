"""The supply curve and the pressure along the worst path."""

import pytest

from design.drawing import DrawingOptions, pressure_path_chart, supply_chart, to_svg
from design.drawing.charts import readings, supply_kpa
from design.drawing.measures import flow_value, length_value, pressure_value
from design.report import SupplyResult
from tests.design_drawing.garden_plan import PARTS, garden_plan, garden_report


def titles(drawing) -> list[str]:
    return [g.title for g in drawing.groups if g.title]


def test_the_curve_passes_through_a_worked_example():
    # Common practice, no source: static 4.5 bar and 3.4 bar left at 40 L/min give 4.07 bar at 24 L/min.
    supply = SupplyResult(450, (450 - 340) / 40**1.852, (0.0,), "measured", 30, "bucket_share", ())
    assert supply_kpa(supply, 24) == pytest.approx(407, abs=0.5)
    assert supply_kpa(supply, 40) == pytest.approx(340)


def test_a_bucket_reading_stands_at_no_pressure():
    found = {r.words: (r.flow_lpm, r.kpa) for r in readings(garden_plan())}
    assert found == {"static": (0, 450), "bucket": (40, 0), "gauge": (40, 340)}


def test_units_are_converted_by_the_published_factors():
    # NIST SP 811, appendix B.8: 1 US gal = 3.785 412 L, 1 psi = 6.894 757 kPa, 1 ft = 0.3048 m.
    assert flow_value(37.85412, "us") == pytest.approx(10, rel=1e-6)
    assert pressure_value(689.4757, "us") == pytest.approx(100, rel=1e-6)
    assert length_value(3.048, "us") == pytest.approx(10)


def test_the_supply_chart_shows_readings_design_point_and_each_case():
    words = titles(supply_chart(garden_plan(), garden_report()))
    assert "design 30.0 L/min" in words
    assert "West: 24.0 L/min at 407 kPa" in words
    assert "East: 20.0 L/min at 415 kPa" in words
    assert "gauge 340 kPa, 40.0 L/min" in words
    us = titles(supply_chart(garden_plan(), garden_report(), DrawingOptions(width=560, units="us")))
    assert "design 7.9 US gal/min" in us


def test_the_design_point_lies_on_the_curve():
    drawing = supply_chart(garden_plan(), garden_report())
    design = next(g for g in drawing.groups if g.kind == "design")
    curve = next(g for g in drawing.groups if g.kind == "curve").shapes[0].points
    x = design.shapes[0].points[0][0]
    y = design.shapes[0].points[0][1]
    before = max((p for p in curve if p[0] <= x), key=lambda p: p[0])
    after = min((p for p in curve if p[0] >= x), key=lambda p: p[0])
    assert before[1] - 0.5 <= y <= after[1] + 0.5


def test_the_worst_path_is_measured_along_the_pipes():
    drawing = pressure_path_chart(
        garden_plan(), garden_report(), "West", DrawingOptions(width=560, parts=PARTS)
    )
    words = titles(drawing)
    assert "S: 398 kPa after 0.0 m" in words
    assert "V1: 372 kPa after 1.5 m" in words
    assert "J1: 345 kPa after 5.5 m" in words  # 1.5 + 1.0 + 3.0
    assert "H1: 318 kPa after 16.5 m" in words  # 5.5 + 2.5 + 8.5
    assert "least for Gear rotor, 9 m: 250 kPa" in words


def test_a_case_that_is_not_there_has_no_chart():
    assert pressure_path_chart(garden_plan(), garden_report(), "Nowhere") is None


def test_charts_are_svg_without_inline_style():
    svg = to_svg(supply_chart(garden_plan(), garden_report()))
    assert "style=" not in svg
    assert "nan" not in svg


def texts(drawing) -> list[str]:
    return [s.text for g in drawing.groups for s in g.shapes if hasattr(s, "text")]


def test_readings_in_one_place_share_one_name_and_cases_do_not_crowd():
    plan = garden_plan()
    bucket = next(t for t in plan.supply.tests if t.kind == "bucket")
    again = bucket.model_copy(update={"seconds": bucket.seconds * 1.01})
    supply = plan.supply.model_copy(update={"tests": (*plan.supply.tests, again)})
    drawing = supply_chart(plan.model_copy(update={"supply": supply}), garden_report())
    assert texts(drawing).count("bucket") == 1
    assert len([g for g in drawing.groups if g.kind == "reading"]) == 4
    crowded = supply_chart(plan, garden_report(), DrawingOptions(width=300))
    assert "West" in texts(crowded)  # the busiest
    assert "East" not in texts(crowded)
    assert any(title.startswith("East: ") for title in titles(crowded))


def test_a_plain_chart_speaks_of_the_busiest_time_and_of_no_case():
    words = texts(supply_chart(garden_plan(), garden_report(), DrawingOptions(plain=True)))
    assert "at its busiest" in words
    assert not {"West", "East"} & set(words)
