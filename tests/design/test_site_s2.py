"""A lawn with a reflex corner, and heads whose throw varies with bearing.

Figures computed from the coordinates; the rules on cable and throw are common practice, no source.
"""

from functools import cache

import pytest
import shapely

from design.check import check
from design.document import Area
from design.reach import nearest_edge_m, scanning_reach, shadow_m2
from design.reaching import ReachingHead, rings_of
from design.spill import spills
from design.visibility import shadow_bearings, throw_by_bearing, visible_polygon
from hydraulics.catalogue import Catalogue
from hydraulics.findings import Severity
from hydraulics.limits import Limits
from tests.design.book import BOOK, site_plan, site_report
from tests.design.plans import ODD_LAWN

LAWN = Area(id="odd", outline=[(x, y) for x, y in ODD_LAWN])
H1 = ReachingHead("H1", (8.0, 6.0), "by_bearing", 10.5)


@cache
def report():
    return site_report("s2")


def test_area_and_perimeter():
    shape = shapely.Polygon(LAWN.outline)
    assert shape.area == pytest.approx(181.0)
    assert shape.length == pytest.approx(52.69, abs=0.005)


def test_throw_by_bearing():
    expected = [6.71, 5.89, 5.64, 8.67, 8.53, 6.88, 6.89, 7.48, 9.48, 9.00, 7.50, 7.16]
    found = throw_by_bearing(rings_of(LAWN), H1.at, range(0, 360, 30))
    assert found == pytest.approx(expected, abs=0.005)


def test_nearest_and_farthest_edge_are_corners_that_a_table_of_bearings_misses():
    far = scanning_reach(H1, [H1], LAWN)
    assert far.needed_m == pytest.approx(10.00, abs=0.001)
    assert far.at == pytest.approx((0, 0), abs=0.001)
    assert far.bearing_from(H1.at) == pytest.approx(233.1, abs=0.05)
    assert nearest_edge_m(H1, LAWN) == pytest.approx(5.00, abs=0.001)
    assert throw_by_bearing(rings_of(LAWN), H1.at, [53.13])[0] == pytest.approx(5.00, abs=0.001)


def test_the_whole_lawn_is_seen_from_one_place_and_not_from_the_other():
    assert shadow_bearings(rings_of(LAWN), H1.at) == []
    assert shapely.Polygon(visible_polygon(rings_of(LAWN), H1.at)).area == pytest.approx(181.0)
    ((start, end),) = shadow_bearings(rings_of(LAWN), (15.0, 5.0))
    assert (start, end) == pytest.approx((323.2, 327.9), abs=0.1)
    moved = ReachingHead("H1", (15.0, 5.0), "by_bearing", 10.5)
    assert shadow_m2([moved], LAWN) == pytest.approx(1.93, abs=0.02)
    assert shadow_m2([moved, H1], LAWN) == 0


def test_a_head_in_the_other_place_gets_a_shadow_finding():
    plan = site_plan("s2")
    nodes = [n.model_copy(update={"at": (15.0, 5.0)}) if n.id == "H1" else n for n in plan.layout.nodes]
    moved = plan.model_copy(update={"layout": plan.layout.model_copy(update={"nodes": nodes})})
    found = [f for f in check(moved, BOOK).findings if f.code == "head.shadow"]
    assert [f.where for f in found] == [("odd", "H1")]
    assert "323" in found[0].sentence


def test_a_full_circle_of_ten_metres_wastes_42_percent():
    plan = site_plan("s2")
    spill = spills([ReachingHead("H1", (8.0, 6.0), "full_circle", 10.0)], plan.ground)["H1"]
    assert spill.outside_pct == pytest.approx(42.4, abs=0.2)


def test_what_must_be_reached_from_the_two_heads():
    needed = {head.id: head.needed_m for case in report().cases for head in case.heads}
    assert needed["H1"] == pytest.approx(10.00, abs=0.005)
    assert needed["H2"] == pytest.approx(7.81, abs=0.005)
    assert not [f for f in report().findings if f.code == "head.throw.short"]


def test_at_260_kpa_the_far_corner_stays_dry_by_20_centimetres():
    """A head regulated to 260 kPa throws 9.8 m."""
    data = BOOK["bearing-10"].model_dump() | {"regulated_kpa": 260.0, "code": "bearing-10"}
    parts = Catalogue(
        [
            *(part for part in BOOK.values() if part.code != "bearing-10"),
            *Catalogue.from_dicts([data]).values(),
        ]
    )
    (found,) = [f for f in check(site_plan("s2"), parts).findings if f.code == "head.throw.short"]
    assert found.where == ("H1",)
    assert found.severity == Severity.WARN
    assert abs(found.measured - found.limit) == pytest.approx(0.20, abs=0.01)


def test_flow_and_rate_of_the_lawn():
    """8 mm/h on 181 m2 is 24.1 L/min, within the 27 L/min that may be used."""
    assert report().supply.design_flow_lpm == pytest.approx(27)
    odd = next(zone for zone in report().zones if zone.id == "H1")
    assert odd.mm_per_hour == pytest.approx(60 * odd.flow_lpm / 181.0)
    assert pytest.approx(8.0, abs=0.02) == 60 * 24.1 / 181.0


def test_the_cable_follows_the_trench_and_never_the_straight_line():
    limits = Limits(main_depth_m=0.25, lateral_depth_m=0.25, cable_depth_m=0.25, cable_slack_m=0.75)
    cable = next(c for c in check(site_plan("s2"), BOOK, limits).cables if c.id == "K2")
    assert cable.trench_m == pytest.approx(39)
    assert cable.length_m == pytest.approx(41)
    assert cable.limit_m == 50
    assert cable.length_m / cable.limit_m == pytest.approx(0.82)
