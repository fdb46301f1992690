"""Coverage of whole plans: what the report says of water in and beside the areas."""

import json
import math

import pytest

from design.check import check
from design.reaching import ReachingHead
from design.report import report_to_dict
from design.report_text import report_text
from design.spill import spills
from hydraulics.catalogue import Catalogue
from hydraulics.findings import Severity
from tests.design.plans import CATALOGUE, ODD_LAWN, PARTS, make_plan, one_zone

EVEN = Catalogue.from_dicts(
    part | ({"profile": "uniform"} if part["kind"] == "head" else {}) for part in PARTS
)
ODD = {"areas": [{"id": "lawn", "outline": ODD_LAWN}]}
HOUSE = [[12, 3], [14, 3], [14, 7], [12, 7]]


def plan_of(ground, head, part="round-10", **changes):
    layout = one_zone()
    layout["nodes"][2] = {"id": "H1", "kind": "head", "at": head, "part": part, **changes}
    return make_plan(layout=layout, ground=ground)


def area_of(report):
    (area,) = report.areas
    return area


def codes(report):
    return {finding.code: finding for finding in report.findings}


def test_a_full_circle_on_the_odd_lawn_wastes_two_fifths():
    # worked test site of the trade, common practice, no source: a circle of 10 m wastes 42.4 %
    area = area_of(check(plan_of(ODD, [8, 6]), EVEN))
    (water,) = area.outside
    assert (water.surface, water.kind) == ("", "ground")
    assert water.pct == pytest.approx(42.4, abs=0.3)
    # the head gives 20 L/min
    assert water.litres_per_hour == pytest.approx(0.424 * 20 * 60, rel=0.01)


def test_a_head_that_looks_around_fills_the_odd_lawn():
    # same site: 181.0 m2, all of it visible from (8, 6), the farthest corner 10.00 m off
    area = area_of(check(plan_of(ODD, [8, 6], "scan-10"), CATALOGUE))
    assert area.area_m2 == pytest.approx(181.0, abs=0.1)
    assert area.watered_m2 == pytest.approx(181.0, rel=0.005)
    assert area.outside == ()
    assert area.dry_spots == ()


def test_what_lies_behind_the_reflex_corner_is_a_dry_spot_with_its_place():
    # same site: from (15, 5) the edge is hit more than once for bearings of about 323.2 to 327.9 degrees
    report = check(plan_of(ODD, [15, 5], "scan-10"), CATALOGUE)
    found = [finding for finding in report.findings if finding.code == "area.dry"]
    assert [finding.severity for finding in found] == [Severity.STOP, Severity.STOP]
    assert [spot.at for spot in area_of(report).dry_spots] == [finding.at for finding in found]
    shadow = found[1]
    bearing = math.degrees(math.atan2(shadow.at[0] - 15, shadow.at[1] - 5)) % 360
    assert 323.2 < bearing < 327.9
    assert shadow.measured == pytest.approx(codes(report)["head.shadow"].measured, rel=0.15)


def test_a_house_hides_part_of_the_lawn_and_takes_the_water():
    ground = {**ODD, "surfaces": [{"id": "house", "kind": "building", "outline": HOUSE}]}
    area = area_of(check(plan_of(ground, [8, 6], reach_m=9), EVEN))
    open_area = area_of(check(plan_of(ODD, [8, 6], reach_m=9), EVEN))
    assert area.watered_m2 < open_area.watered_m2 - 5
    house = next(water for water in area.outside if water.surface == "house")
    assert house.kind == "building"
    # its near wall spans this angle as seen from the head, and takes all beyond 4 m
    angle = math.atan2(3, 4) + math.atan2(1, 4)
    share = (angle * 81 - (3 + 1) * 4) / (2 * math.pi * 81)
    assert house.pct == pytest.approx(100 * share, rel=0.02)


def test_who_stands_behind_a_house_must_be_reached_from_elsewhere():
    """The near head cannot see the far end of its lawn; the far one has to throw there."""
    lawn = [[0, 0], [30, 0], [30, 6], [0, 6]]
    house = [[14, -1], [16, -1], [16, 7], [14, 7]]
    layout = one_zone()
    layout["nodes"][2] |= {"at": [11, 3], "part": "round-10"}
    layout["nodes"].append({"id": "H2", "kind": "head", "at": [28, 3], "part": "round-10"})
    layout["pipes"].append({"id": "P3", "from": "H1", "to": "H2", "part": "pvc-25"})
    needed = {}
    for name, surfaces in (("open", []), ("built", [{"id": "house", "kind": "building", "outline": house}])):
        ground = {"areas": [{"id": "lawn", "outline": lawn}], "surfaces": surfaces}
        heads = check(make_plan(layout=layout, ground=ground), CATALOGUE).cases[0].heads
        needed[name] = {head.id: head.needed_m for head in heads}
    assert needed["open"]["H2"] < 10
    assert needed["built"]["H2"] > 11.9


def test_what_a_wall_hides_is_no_water_on_the_neighbour_behind():
    head = ReachingHead("H1", (0.0, 0.0), "full_circle", 10.0)
    beside = {"id": "beside", "kind": "neighbour", "outline": [[5, -9], [12, -9], [12, 9], [5, 9]]}
    wall = {"id": "garage", "kind": "building", "outline": [[3, -9], [4, -9], [4, 9], [3, 9]]}
    lawn = {"areas": [{"id": "lawn", "outline": [[-11, -11], [3, -11], [3, 11], [-11, 11]]}]}
    open_plan = make_plan(ground={**lawn, "surfaces": [beside]})
    built_plan = make_plan(ground={**lawn, "surfaces": [beside, wall]})
    segment = (100 * math.acos(0.5) - 5 * math.sqrt(75)) / (100 * math.pi)  # beyond x = 5 of a circle of 10
    assert spills([head], open_plan.ground)["H1"].on_surface_pct["beside"] == pytest.approx(
        100 * segment, abs=1.5
    )
    found = spills([head], built_plan.ground)["H1"]
    assert found.on_surface_pct.get("beside", 0) < 1.0  # past the ends of the wall only
    assert found.on_surface_pct["garage"] > 30


@pytest.mark.parametrize(("inside", "is_found"), [(0.09, False), (0.11, True)])
def test_a_head_inside_a_building_is_told_to_come_out(inside, is_found):
    lawn = {"id": "lawn", "outline": [[-6, 0], [6, 0], [6, 8], [-6, 8]]}
    house = {"id": "house", "kind": "building", "outline": [[-6, -5], [6, -5], [6, 0], [-6, 0]]}
    ground = {"areas": [lawn], "surfaces": [house]}
    report = check(plan_of(ground, [0, -inside], from_deg=270, sweep_deg=180, part="rotary-6"), CATALOGUE)
    assert ("head.indoors" in codes(report)) == is_found
    # drawn hardly inside the wall it waters its lawn; far inside it waters the house
    watered = area_of(report).watered_m2
    assert (watered > 40) != is_found


def test_the_report_carries_it_all_in_text_and_json():
    report = check(plan_of(ODD, [15, 5], "scan-10"), CATALOGUE)
    text = report_text(report)
    assert "m2 dry around x" in text
    assert "L/h" in text
    assert "(driest 0.0)" in text
    stored = json.loads(json.dumps(report_to_dict(report), allow_nan=False))
    assert stored["areas"][0]["dry_spots"][0]["area_m2"] > 50
    assert stored["areas"][0]["outside"][0]["kind"] == "ground"
    assert stored["moved_limits"] == []
