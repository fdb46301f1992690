"""How far heads must throw, and what they wet beside their area."""

import math

import pytest

from design.check import check
from design.document import Area
from design.reach import reaches
from design.reaching import ReachingHead, nearest_neighbours
from design.sharing import fixed_reaches
from hydraulics.catalogue import Catalogue
from hydraulics.findings import Severity
from tests.design.plans import CATALOGUE, PARTS, make_plan, one_zone

SQUARE = Area(id="lawn", outline=[(0, 0), (10, 0), (10, 10), (0, 10)])


def test_heads_of_one_throw_share_an_area():
    corners = [((0, 0), 0), ((0, 10), 90), ((10, 10), 180), ((10, 0), 270)]
    heads = [ReachingHead(f"H{n}", at, "fixed_arc", 10, start, 90) for n, (at, start) in enumerate(corners)]
    found = fixed_reaches(heads, SQUARE)
    assert [found[head.id].needed_m for head in heads] == pytest.approx([50**0.5] * 4)
    assert [found[head.id].share_m2 for head in heads] == pytest.approx([25] * 4)


def test_a_lone_head_must_reach_the_farthest_corner_in_its_arc():
    half = ReachingHead("H1", (5, 0), "fixed_arc", 6, 270, 180)
    assert fixed_reaches([half], SQUARE)["H1"].needed_m == pytest.approx(125**0.5)
    east = ReachingHead("H1", (5, 0), "fixed_arc", 6, 0, 90)
    assert fixed_reaches([east], SQUARE)["H1"].at == pytest.approx((10, 10))


def test_the_stronger_of_two_heads_takes_more():
    strong = ReachingHead("A", (0, 5), "fixed_arc", 8, 0, 180)
    weak = ReachingHead("B", (10, 5), "fixed_arc", 2, 180, 180)
    found = fixed_reaches([strong, weak], SQUARE)
    assert found["A"].share_m2 > 4 * found["B"].share_m2
    assert found["A"].share_m2 + found["B"].share_m2 == pytest.approx(100)


def test_a_throw_is_compared_as_radius():
    """A circle of 10 m diameter does not reach the corners of a square of 10 m from its centre."""
    report = check(
        make_plan(
            ground={"areas": [{"id": "lawn", "outline": [[0, 0], [10, 0], [10, 10], [0, 10]]}]},
            layout=one_zone(),
        ),
        CATALOGUE,
    )
    (short,) = [f for f in report.findings if f.code == "head.throw.short"]
    assert short.severity == Severity.STOP
    (head,) = report.cases[0].heads
    assert head.reach_m == pytest.approx(6)
    assert head.needed_m == pytest.approx(125**0.5)
    assert head.needed_bearing_deg in (pytest.approx(26.57, abs=0.01), pytest.approx(333.43, abs=0.01))


def test_a_reach_set_to_the_diameter_is_asked_about():
    layout = one_zone()
    layout["nodes"][2]["reach_m"] = 12.0
    found = [f for f in check(make_plan(layout=layout), CATALOGUE).findings if f.code == "head.reach.beyond"]
    assert [f.severity for f in found] == [Severity.STOP]
    assert "diameter" in found[0].sentence


def test_a_reach_set_shorter_counts():
    layout = one_zone()
    layout["nodes"][2]["reach_m"] = 4.5
    (head,) = check(make_plan(layout=layout), CATALOGUE).cases[0].heads
    assert (head.throw_m, head.reach_m) == (pytest.approx(6), pytest.approx(4.5))


def test_throw_by_bearing_of_25_30_and_35_feet():
    """40, 60 and 80 psi throw about 25, 30 and 35 ft, a radius (common practice, no source).

    A square-root law gives 30.6 and 35.4 ft from 25 ft at 40 psi.
    """
    foot, psi = 0.3048, 6.894757
    rows = [
        {"pressure_kpa": p * psi, "flow_lpm": 13.2 * math.sqrt(p / 40), "throw_m": t * foot}
        for p, t in ((40, 25), (60, 30), (80, 35))
    ]
    from hydraulics.catalogue import HeadPart
    from hydraulics.heads import throw_at

    scan = next(p for p in PARTS if p["code"] == "scan-10") | {"rows": rows, "min_kpa": 40 * psi}
    part = Catalogue.from_dicts([scan]).need("scan-10", HeadPart)
    for p, t in ((40, 25), (60, 30), (80, 35)):
        assert throw_at(part, p * psi).throw_m / foot == pytest.approx(t)
        assert 25 * math.sqrt(p / 40) == pytest.approx(t, rel=0.025)


def test_several_heads_that_look_around_share_by_distance():
    heads = [ReachingHead(n, at, "by_bearing", 9) for n, at in (("A", (2.5, 5)), ("B", (7.5, 5)))]
    found = reaches(heads, [SQUARE])
    assert [found[name].needed_m for name in "AB"] == pytest.approx([31.25**0.5] * 2)


def test_a_head_on_the_very_edge_still_sees_its_area():
    head = ReachingHead("A", (5, 0), "by_bearing", 20)
    assert reaches([head], [SQUARE])["A"].needed_m == pytest.approx(125**0.5, abs=0.01)


def test_nearest_neighbours_by_distance():
    heads = [ReachingHead(n, at, "fixed_arc", 6) for n, at in (("A", (0, 0)), ("B", (4, 0)), ("C", (4, 3)))]
    assert nearest_neighbours(heads) == {"A": ("B", 4.0), "B": ("C", 3.0), "C": ("B", 3.0)}


def test_heads_too_far_apart_are_found():
    layout = one_zone(
        nodes=[{"id": "H2", "kind": "head", "at": [12, 0], "part": "rotary-6"}],
        pipes=[{"id": "P3", "from": "H1", "to": "H2", "part": "pvc-25"}],
    )
    ground = {"areas": [{"id": "lawn", "outline": [[0, 0], [20, 0], [20, 5], [0, 5]]}]}
    found = [
        f for f in check(make_plan(layout=layout, ground=ground), CATALOGUE).findings if "spacing" in f.code
    ]
    assert [(f.where, round(f.measured, 2), f.severity) for f in found] == [
        (("H1", "H2"), 7.0, Severity.STOP),
        (("H2", "H1"), 7.0, Severity.STOP),
    ]


@pytest.mark.parametrize(("kind", "severity"), [("neighbour", Severity.STOP), ("paving", Severity.WARN)])
def test_water_on_a_neighbour_stops_and_on_paving_warns(kind, severity):
    """The head throws 6 m to all sides of (5, 0); the lawn lies north of it."""
    layout = one_zone()
    layout["nodes"][2] |= {"from_deg": 0, "sweep_deg": 360}
    ground = {
        "areas": [{"id": "lawn", "outline": [[-5, 0], [15, 0], [15, 8], [-5, 8]]}],
        "surfaces": [{"id": "beside", "kind": kind, "outline": [[-5, -9], [15, -9], [15, 0], [-5, 0]]}],
    }
    found = {f.code: f for f in check(make_plan(layout=layout, ground=ground), CATALOGUE).findings}
    assert found["head.overspray.surface"].severity == severity
    assert found["head.overspray.surface"].measured == pytest.approx(50, abs=0.1)
    assert found["head.overspray"].measured == pytest.approx(50, abs=0.1)


def test_a_strip_of_centimetres_beside_an_arc_is_not_left_to_the_head_across_the_lawn():
    """A lawn of 12 m x 6.05 m with half circles 0.05 m within its north side, and two corners at the south.

    Each half circle serves the strip behind it; its farthest point lies by Pythagoras 3 m along and
    at most 3 m or so across, and no head has to throw over the whole lawn for 0.05 m.
    """
    lawn = Area(id="lawn", outline=[(0, 0), (12, 0), (12, 6.05), (0, 6.05)])
    north = [ReachingHead(f"N{x}", (x, 6.0), "fixed_arc", 6.0, 90, 180) for x in (0, 6, 12)]
    south = [ReachingHead(f"S{x}", (x, 0.0), "fixed_arc", 6.0, 270, 180) for x in (0, 6, 12)]
    found = fixed_reaches([*north, *south], lawn)
    assert max(reach.needed_m for reach in found.values()) < 6.0
