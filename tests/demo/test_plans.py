"""The demo's plans and the reference plans load, use known parts, and hold what they promise."""

import math
from collections import Counter
from itertools import pairwise

import pytest
from shapely import Point, Polygon

from design.document import HeadNode, Plan
from design.geometry import path_length
from design.part_rules import check_parts, own_valve_heads
from design.topology import build_topology, count_loops
from hydraulics.catalogue import HeadPart
from tests.demo.files import ALL_PLANS, DEMO, REFERENCE_PLANS, demo_catalogue, plan_of, read

PARTS = demo_catalogue()
QUINCE = DEMO / "plans" / "quince-house.json"
FERRY = DEMO / "plans" / "ferry-lane.json"
FOOT_M = 0.3048


def heads_of(plan: Plan) -> list[HeadNode]:
    return [node for node in plan.layout.nodes if isinstance(node, HeadNode)]


def pipe_metres(plan: Plan) -> dict[str, float]:
    at = {node.id: node.at for node in plan.layout.nodes}
    return {pipe.id: path_length((at[pipe.from_], *pipe.via, at[pipe.to])) for pipe in plan.layout.pipes}


@pytest.mark.parametrize("path", ALL_PLANS, ids=lambda path: path.stem)
def test_the_plan_is_sound_and_its_parts_are_in_the_price_book(path):
    assert check_parts(plan_of(path), PARTS) == []


def test_the_spare_customers_plan_is_the_plain_rectangle():
    assert read(DEMO / "plans" / "plain-rectangle.json") == read(REFERENCE_PLANS / "s1.json")


def test_the_plain_rectangle_has_four_quarter_eight_half_and_three_full_circles():
    heads = heads_of(plan_of(REFERENCE_PLANS / "s1.json"))
    assert Counter(head.sweep_deg for head in heads) == {90: 4, 180: 8, 360: 3}


def test_the_plain_rectangle_has_two_zones_of_24_litres_a_minute():
    plan = plan_of(REFERENCE_PLANS / "s1.json")
    topology = build_topology(plan)
    nodes = {node.id: node for node in heads_of(plan)}
    flows = {
        zone.id: sum(6.0 * nodes[head].sweep_deg / 360 for head in zone.heads)
        for zone in topology.zones.values()
    }
    assert flows == {"V1": pytest.approx(24.0), "V2": pytest.approx(24.0)}


def test_the_plain_rectangle_has_86_m_of_lateral_and_a_short_main():
    plan = plan_of(REFERENCE_PLANS / "s1.json")
    roles, metres = build_topology(plan).roles, pipe_metres(plan)
    assert sum(m for pipe, m in metres.items() if roles[pipe] == "lateral") == pytest.approx(86.0)
    assert sum(metres.values()) == pytest.approx(86.0, rel=0.01)
    assert Counter(round(m, 3) for pipe, m in metres.items() if roles[pipe] == "lateral") == {6.0: 14, 1.0: 2}


def test_the_odd_lawn_has_its_published_area_and_perimeter():
    area = next(a for a in plan_of(REFERENCE_PLANS / "s2.json").ground.areas if a.id == "odd")
    shape = Polygon(area.outline)
    assert shape.area == pytest.approx(181.0, rel=0.001)
    assert shape.length == pytest.approx(52.69, rel=0.001)


@pytest.mark.parametrize("path", ALL_PLANS, ids=lambda path: path.stem)
def test_every_fixed_arc_points_into_the_area_that_it_waters(path):
    plan = plan_of(path)
    shapes = {area.id: Polygon(area.outline, area.holes) for area in plan.ground.areas}
    for head in heads_of(plan):
        part = PARTS[head.part]
        if isinstance(part, HeadPart) and part.pattern == "fixed_arc":
            for step in range(1, 8):
                bearing = math.radians(head.from_deg + head.sweep_deg * step / 8)
                ahead = (head.at[0] + 0.5 * math.sin(bearing), head.at[1] + 0.5 * math.cos(bearing))
                assert shapes[head.area].covers(Point(ahead)), (head.id, step)


@pytest.mark.parametrize("path", ALL_PLANS, ids=lambda path: path.stem)
def test_no_pipe_runs_back_on_itself(path):
    plan = plan_of(path)
    at = {node.id: node.at for node in plan.layout.nodes}
    for pipe in plan.layout.pipes:
        line = (at[pipe.from_], *pipe.via, at[pipe.to])
        assert all(a != b for a, b in pairwise(line)), pipe.id


def test_quince_house_has_what_the_metric_demo_is_to_show():
    plan = plan_of(QUINCE)
    topology = build_topology(plan)
    assert count_loops(topology) == 1
    families = {getattr(PARTS[head.part], "family", "drip") for head in heads_of(plan)}
    assert families == {"rotor", "spray", "drip"}
    assert {service.kind for service in plan.ground.services} >= {"electric", "drain", "future_drain"}
    assert {surface.kind for surface in plan.ground.surfaces} >= {"building", "paving", "future_work"}
    assert min(level.z_m for level in plan.ground.levels) <= -1.0


def test_heads_that_throw_the_same_way_stand_no_farther_apart_than_they_throw():
    """Head to head: spacing is at most the radius (common practice, no source)."""
    heads = [head for head in heads_of(plan_of(QUINCE)) if head.reach_m]
    for head in heads:
        nearest = min(math.dist(head.at, other.at) for other in heads if other is not head)
        assert nearest <= head.reach_m + 1e-9, head.id


def test_ferry_lane_has_heads_with_own_valves_in_a_chain_of_cables():
    plan = plan_of(FERRY)
    own = own_valve_heads(plan, PARTS)
    assert own == {head.id for head in heads_of(plan)}
    assert 3 <= len(own) <= 6
    assert {end for cable in plan.layout.cables for end in (cable.from_, cable.to)} >= own
    assert {surface.kind for surface in plan.ground.surfaces} >= {"paving", "neighbour"}


def test_the_tap_at_ferry_lane_is_barely_good_enough():
    """Common practice, no source: 5 US gal within 45 s, which is 6.67 US gal/min, is the least supply."""
    buckets = [test for test in plan_of(FERRY).supply.tests if test.kind == "bucket"]
    assert buckets
    for bucket in buckets:
        assert bucket.litres == pytest.approx(5 * 3.785412, abs=0.01)
        gallons_per_minute = bucket.litres / 3.785412 * 60 / bucket.seconds
        assert 6.67 <= gallons_per_minute < 7.0


def test_the_lawn_at_ferry_lane_has_a_curved_and_a_notched_edge():
    areas = {area.id: area for area in plan_of(FERRY).ground.areas}
    assert len(areas["west"].outline) > 10
    notched = Polygon(areas["east"].outline)
    assert notched.convex_hull.area - notched.area > 0.5
