"""Heads for an area: the test sites by hand, and what holds of any outline."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from design.document import Area
from design.geometry import bearing_deg, in_arc, point_at
from design.placement import CannotPlace, place_heads
from design.placement_scan import nearest_to_farthest, seeing_all
from design.visibility import shadow_bearings
from tests.design.book import BOOK
from tests.design.plans import ODD_LAWN
from tests.sites.makers import plan_document

ROTARY, SCAN, DRIP = BOOK["rotary-6"], BOOK["bearing-10"], BOOK["drip-2.0"]


def area(outline, **more):
    return Area(id="A", outline=outline, **more)


RECTANGLE = area([[0, 0], [24, 0], [24, 12], [0, 12]])


@pytest.mark.parametrize("outline", [RECTANGLE.outline, RECTANGLE.outline[::-1]])
def test_a_rectangle_of_24_by_12_takes_15_heads_on_the_six_metre_grid(outline):
    """Worked by hand: corners quarter, edges half, inside full circles."""
    found = place_heads(area(outline), ROTARY)
    grid = {(x, y) for x in (0, 6, 12, 18, 24) for y in (0, 6, 12)}
    assert {(round(head.at[0], 6), round(head.at[1], 6)) for head in found.heads} == grid
    assert sorted(round(head.sweep_deg) for head in found.heads) == [90] * 4 + [180] * 8 + [360] * 3
    assert found.doubts == ()
    assert found.sentence() == "15 heads for a throw of 6.00 m: 4 in corners, 8 along edges, 3 inside."


def test_the_arcs_of_the_rectangle_look_into_it():
    arcs = {head.at: (head.from_deg, head.sweep_deg) for head in place_heads(RECTANGLE, ROTARY).heads}
    assert arcs[0, 0] == (0, 90)
    assert arcs[24, 0] == (270, 90)
    assert arcs[24, 12] == (180, 90)
    assert arcs[6, 0] == (270, 180)
    assert arcs[6, 12] == (90, 180)


def looks_inside(shape, head, near_m=0.05):
    """Every direction of the arc, just off its two ends, leads into the outline at first."""
    rays = [head.from_deg + head.sweep_deg * share for share in (0.02, 0.25, 0.5, 0.75, 0.98)]
    return all(shape.buffer(1e-3).covers(shapely.Point(point_at(head.at, ray, near_m))) for ray in rays)


def test_the_odd_lawn_gets_arcs_within_its_outline():
    shape = shapely.Polygon(ODD_LAWN)
    found = place_heads(area(ODD_LAWN), ROTARY)
    assert {tuple(corner) for corner in ODD_LAWN} == {h.at for h in found.heads if h.where == "corner"}
    assert all(looks_inside(shape, head) for head in found.heads)
    reflex = next(head for head in found.heads if head.at == (12, 9))
    assert reflex.sweep_deg > 180
    assert not in_arc(bearing_deg((12, 9), (14, 11)), reflex.from_deg, reflex.sweep_deg)


def test_edges_are_divided_equally_and_never_wider_than_the_throw():
    found = place_heads(area([[0, 0], [20, 0], [20, 7], [0, 7]]), ROTARY)
    row = sorted(head.at[0] for head in found.heads if head.at[1] == 0)
    assert [b - a for a, b in pairwise(row)] == [5.0] * 4


def test_a_spacing_is_taken_as_the_most():
    found = place_heads(RECTANGLE, ROTARY, 5.0)
    assert len([head for head in found.heads if head.at[1] == 0]) == 6
    assert any("do not reach each other" in doubt for doubt in place_heads(RECTANGLE, ROTARY, 9.0).doubts)


def test_one_head_that_throws_by_bearing_sees_every_corner():
    """(8, 6) has its farthest corner at 10.00 m (worked by hand); the best place is no worse."""
    lawn = area(ODD_LAWN)
    (head,) = place_heads(lawn, SCAN).heads
    assert shadow_bearings([lawn.outline], head.at) == []
    assert max(math.dist(head.at, corner) for corner in lawn.outline) <= 10.0


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 359), st.integers(4, 12)), min_size=4, max_size=9, unique_by=lambda p: p[0]
    )
)
def test_no_place_of_a_grid_is_better(polar):
    ring = [point_at((0, 0), bearing, reach) for bearing, reach in sorted(polar)]
    shape = shapely.Polygon(ring)
    if not shape.is_valid or shape.area < 1:
        return
    kernel = seeing_all(Area(id="A", outline=ring))
    if kernel.is_empty:
        return
    at = nearest_to_farthest(kernel, ring)
    best = max(math.dist(at, corner) for corner in ring)
    west, south, east, north = kernel.bounds
    for i in range(12):
        for j in range(12):
            other = (west + (east - west) * i / 11, south + (north - south) * j / 11)
            if kernel.covers(shapely.Point(other)):
                assert max(math.dist(other, corner) for corner in ring) >= best - 1e-3


def test_where_no_place_sees_everything_it_says_so():
    u_shape = [[0, 0], [20, 0], [20, 15], [15, 15], [15, 5], [5, 5], [5, 15], [0, 15]]
    found = place_heads(area(u_shape), SCAN)
    assert len(found.heads) == 1
    assert "No one place sees all" in found.sentence()


def test_drip_gets_its_inlet_at_the_corner_next_to_the_water():
    found = place_heads(RECTANGLE, DRIP, near=(30, 13))
    assert [head.at for head in found.heads] == [(24, 12)]
    assert found.heads[0].where == "inlet"


def test_a_narrow_strip_is_doubted():
    found = place_heads(area([[0, 0], [24, 0], [24, 2], [0, 2]]), ROTARY)
    assert any("outside the area" in doubt for doubt in found.doubts)


@pytest.mark.parametrize(
    "outline", [[[0, 0], [1, 1], [1, 0], [0, 1]], [[0, 0], [900, 0], [900, 900], [0, 900]]]
)
def test_what_cannot_be_done_is_said(outline):
    with pytest.raises(CannotPlace):
        place_heads(area(outline), ROTARY)


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 359), st.integers(3, 25)), min_size=3, max_size=12, unique_by=lambda p: p[0]
    )
)
def test_whatever_the_outline_the_heads_stand_in_it(polar):
    ring = [point_at((0, 0), bearing, reach) for bearing, reach in sorted(polar)]
    shape = shapely.Polygon(ring)
    if not shape.is_valid or shape.area < 1:
        return
    try:
        found = place_heads(Area(id="A", outline=ring), ROTARY)
    except CannotPlace:
        return
    assert all(shape.distance(shapely.Point(head.at)) < 0.2 for head in found.heads)
    assert all(0 <= head.from_deg < 360 and 0 < head.sweep_deg <= 360 for head in found.heads)


def test_the_address_gives_nodes_that_the_plan_takes(send, plan):
    document = plan_document()
    lawn = document["ground"]["areas"][0]["id"]
    document["layout"] = {"nodes": [{"id": "H1", "kind": "supply", "at": [-1, 6]}]}
    found = send("place", {"document": document, "area": lawn, "part": "rotary-6", "spacing": ""}).json()
    assert len(found["nodes"]) == 15
    assert found["nodes"][0]["id"] == "H2"
    assert (
        send("place", {"document": document, "area": lawn, "part": "rotary-6", "spacing": "5 m"}).status_code
        == 200
    )
    document["layout"]["nodes"] += found["nodes"]
    answer = send("check", {"document": document}).json()
    assert {problem["field"] for problem in answer["problems"]} == {"at"}  # only the pipes are missing


@pytest.mark.parametrize(
    "change",
    [{"area": "no"}, {"part": "no"}, {"part": "pvc-25"}, {"spacing": "x"}, {"spacing": "1 mm"},
     {"spacing": 3}, {"area": []},
     {"document": {"ground": {"areas": [{"id": "A", "outline": [[0, 0]]}]}}, "area": "A"}],
)  # fmt: skip
def test_the_address_refuses_with_a_sentence(send, change):
    document = plan_document()
    lawn = document["ground"]["areas"][0]["id"]
    body = {"document": document, "area": lawn, "part": "rotary-6", "spacing": "", **change}
    answer = send("place", body)
    assert answer.status_code == 422
    assert answer.json()["detail"]
