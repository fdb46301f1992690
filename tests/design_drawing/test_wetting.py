"""The ground that a head wets."""

from math import atan2, degrees, hypot

import pytest
from shapely import LineString, Polygon

from design.document import Area, HeadNode
from design.drawing.wetting import (
    area_polygon,
    drip_rows,
    point_at,
    sector,
    seen_ring,
    wet_radius_m,
    wet_ring,
)
from hydraulics.catalogue import DripPart
from tests.design_drawing.garden_plan import PARTS, garden_plan, garden_report

# Common practice, no source: a hand-worked lawn with an odd edge, area 181.0 m2, and the distance to
# that edge from (8, 6) by bearing from north, clockwise, every 30 degrees.
ODD_LAWN = [(0, 0), (9, -1), (16, 2), (17, 8), (12, 9), (10, 13), (3, 12), (-1, 6)]
THROWS_M = [6.71, 5.89, 5.64, 8.67, 8.53, 6.88, 6.89, 7.48, 9.48, 9.00, 7.50, 7.16]


def bearing(centre, point) -> float:
    return degrees(atan2(point[0] - centre[0], point[1] - centre[1])) % 360


def test_a_head_sees_its_area_out_to_the_edge_by_bearing():
    lawn = Polygon(ODD_LAWN)
    assert lawn.area == pytest.approx(181.0, rel=0.001)
    ring = seen_ring((8, 6), lawn, 10.5)
    by_bearing = {round(bearing((8, 6), p), 2): hypot(p[0] - 8, p[1] - 6) for p in ring}
    for number, wanted in enumerate(THROWS_M):
        assert by_bearing[number * 30.0] == pytest.approx(wanted, rel=0.01)
    # Nearest at the inner corner (12, 9), farthest at the corner (0, 0).
    assert min(by_bearing.values()) == pytest.approx(5.00, abs=0.01)
    assert max(by_bearing.values()) == pytest.approx(10.00, abs=0.01)
    assert Polygon(ring).area == pytest.approx(181.0, rel=0.005)


def test_what_it_sees_ends_at_its_throw():
    ring = seen_ring((8, 6), Polygon(ODD_LAWN), 5.5)
    assert max(hypot(x - 8, y - 6) for x, y in ring) == pytest.approx(5.5)


def test_it_does_not_see_round_a_corner_or_past_a_hole():
    ell = Polygon([(0, 0), (10, 0), (10, 2), (2, 2), (2, 10), (0, 10)])
    seen = Polygon(seen_ring((9, 1), ell, 30))
    assert seen.area < ell.area
    assert not seen.buffer(-0.05).intersects(LineString([(1, 6), (1, 9)]))
    holed = Polygon([(0, 0), (10, 0), (10, 10), (0, 10)], [[(4, 4), (6, 4), (6, 6), (4, 6)]])
    behind = LineString([(8, 5), (9, 5)])
    assert not Polygon(seen_ring((1, 5), holed, 30)).intersects(behind)


def test_a_head_outside_its_area_sees_nothing_of_it():
    assert seen_ring((50, 50), Polygon(ODD_LAWN), 10) == ()


def test_an_arc_opens_clockwise_from_north():
    ring = sector((0, 0), 10, 90, 90)  # from east to south
    assert ring[0] == (0, 0)
    assert all(x >= -1e-9 and y <= 1e-9 for x, y in ring)
    assert point_at((0, 0), 90, 10) == pytest.approx((10, 0))
    assert Polygon(ring).area == pytest.approx(3.14159 * 100 / 4, rel=0.01)


def test_the_radius_is_the_solved_throw_but_no_more_than_the_reach():
    plan, report = garden_plan(), garden_report()
    heads = {n.id: n for n in plan.layout.nodes if isinstance(n, HeadNode)}
    assert wet_radius_m(heads["H1"], None, report) == 8.5
    assert wet_radius_m(heads["H2"], None, report) == 8.9
    assert wet_radius_m(heads["H2"], PARTS["rotor-9"], None) == 9
    assert wet_radius_m(heads["H2"], None, None) is None


def test_a_full_circle_ignores_the_arc_of_the_node():
    head = HeadNode(id="H", kind="head", at=(0, 0), part="x", from_deg=0, sweep_deg=90)
    part = PARTS["rotor-9"].model_copy(update={"pattern": "full_circle"})
    assert Polygon(wet_ring(head, part, 5, [])).area == pytest.approx(3.14159 * 25, rel=0.01)


def test_drip_rows_lie_at_their_spacing():
    # Common practice, no source: a bed of 20 m by 3 m with rows 0.40 m apart and a margin of
    # 0.10 m has floor(2.8 / 0.4) + 1 = 8 rows; binary floats give 7 without a tolerance.
    part = DripPart(
        code="d", label="d", emitter_lph=2, emitter_spacing_m=0.33, row_spacing_m=0.4, min_kpa=1, max_kpa=2
    )
    rows = drip_rows(Polygon([(0, 0), (20, 0), (20, 3), (0, 3)]), part)
    assert len(rows) == 8
    assert all(hypot(r[1][0] - r[0][0], r[1][1] - r[0][1]) == pytest.approx(19.8) for r in rows)


def test_an_outline_that_crosses_itself_still_gives_a_polygon():
    area = Area(id="a", outline=[(0, 0), (9, 9), (9, 0), (0, 9)])
    assert area_polygon(area).is_valid
