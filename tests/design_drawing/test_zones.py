"""Zones are told apart: each on ground of its own, with a number, in colours that every eye parts."""

from itertools import combinations

import pytest
from shapely import Point, Polygon, union_all

from design.drawing import DrawingOptions, plan_drawing
from design.drawing.palette import ZONE_COLOURS
from design.drawing.wetting import sector
from design.drawing.zone_patches import Throw, zone_patches
from tests.design_drawing.eyes import BLINDNESS, apart
from tests.design_drawing.garden_plan import PARTS, garden_plan, garden_report


@pytest.mark.parametrize("eyes", BLINDNESS)
def test_zone_colours_stay_apart_for_every_eye(eyes):
    # Twenty units of L*a*b* are told apart at a glance (common practice, no source).
    for one, other in combinations(ZONE_COLOURS, 2):
        assert apart(eyes, one, other) > 20


HEADS = [(0, (0.0, 0.0)), (0, (0.0, 9.0)), (1, (9.0, 0.0)), (1, (9.0, 9.0)), (2, (4.5, 4.5))]


def throws():
    return [Throw(zone, at, sector(at, 9, 0, 360)) for zone, at in HEADS]


def test_no_patch_covers_another_and_together_they_are_all_that_is_wetted():
    patches = {zone: union_all(pieces) for zone, pieces in zone_patches(throws(), {}).items()}
    assert set(patches) == {0, 1, 2}
    for one, other in combinations(patches.values(), 2):
        assert one.intersection(other).area < 0.1
    wetted = union_all([Polygon(throw.ring) for throw in throws()])
    assert union_all(list(patches.values())).area == pytest.approx(wetted.area, rel=0.005)


@pytest.mark.parametrize(
    ("spot", "zone"), [((1, 1), 0), ((8, 8), 1), ((4.5, 4), 2), ((-5, 4), 0), ((15, 2), 1)]
)
def test_a_spot_goes_to_the_nearest_head_that_wets_it(spot, zone):
    patches = zone_patches(throws(), {})
    assert [z for z, pieces in patches.items() if union_all(pieces).covers(Point(spot))] == [zone]


def test_ground_that_only_a_farther_head_wets_is_not_lost():
    near_but_short = Throw(0, (0.0, 0.0), sector((0.0, 0.0), 2, 0, 360))
    far = Throw(1, (8.0, 0.0), sector((8.0, 0.0), 8, 0, 360))
    patches = zone_patches([near_but_short, far], {})
    assert union_all(patches[1]).covers(Point(3, 0))
    assert union_all(patches[0]).covers(Point(1.5, 0))


def test_a_drip_area_is_its_zones_alone():
    bed = ((3.0, 3.0), (6.0, 3.0), (6.0, 6.0), (3.0, 6.0))
    patches = zone_patches(throws(), {7: [bed]})
    assert union_all(patches[7]).area == pytest.approx(9)
    assert union_all(patches[2]).intersection(Polygon(bed)).area == pytest.approx(0, abs=0.01)


def test_heads_in_one_place_and_rings_without_room_do_no_harm():
    same = [Throw(zone, (1.0, 1.0), sector((1.0, 1.0), 5, 0, 360)) for zone in (0, 1)]
    patches = zone_patches(
        [*same, Throw(2, (0.0, 0.0), ()), Throw(3, (0.0, 0.0), ((0, 0), (1, 1), (2, 2)))], {}
    )
    assert patches[2] == patches[3] == []
    assert patches[0]
    assert zone_patches([], {}) == {}


def groups(kind, **changes):
    options = DrawingOptions(**{"parts": PARTS, **changes})
    return [g for g in plan_drawing(garden_plan(), garden_report(), options).groups if g.kind == kind]


def test_each_zone_wears_its_number_on_the_map_and_in_the_key():
    badges = groups("zone-badge")
    numbers = [shape.text for group in badges for shape in group.shapes if hasattr(shape, "text")]
    assert numbers == ["1", "2", "3"]
    assert badges[0].title.startswith("Zone 1: ")
    key = groups("legend")[0]
    assert {"1", "2", "3"} <= {shape.text for shape in key.shapes if hasattr(shape, "text")}
    assert groups("zone-badge", layers=frozenset({"wetting"})) == []


def test_a_plain_drawing_has_no_ids_no_sizes_and_no_depths():
    labels = {shape.text for shape in groups("labels", plain=True)[0].shapes}
    assert not labels & {"H1", "H2", "V1", "V2", "D1"}
    assert not [text for text in labels if "deep" in text]
    assert {"Supply", "Controller", "West lawn"} <= labels
    key = {shape.text for shape in groups("legend", plain=True)[0].shapes if hasattr(shape, "text")}
    assert {"Main pipe", "Pipe to the heads"} <= key
    assert not [text for text in key if "PE" in text]


def test_a_controller_beside_another_device_steps_aside_with_a_lead_to_its_place():
    plan = garden_plan()
    nodes = [n.model_copy(update={"at": (12.1, 0.5)}) if n.id == "C" else n for n in plan.layout.nodes]
    plan = plan.model_copy(update={"layout": plan.layout.model_copy(update={"nodes": nodes})})
    drawing = plan_drawing(plan, garden_report(), DrawingOptions(parts=PARTS))
    signs = {g.entity: g for g in drawing.groups if g.layer == "devices"}
    lead = signs["C"].shapes[0]
    assert lead.style == "leader"
    supply_x = sum(x for x, _ in signs["S"].shapes[0].rings[0][:4]) / 4
    assert abs(lead.points[0][0] - supply_x) < 6
    supply_y = signs["S"].shapes[0].rings[0][2][1] + 8
    aside = ((lead.points[1][0] - supply_x) ** 2 + (lead.points[1][1] - supply_y) ** 2) ** 0.5
    assert aside >= 15
    apart = {
        g.entity: g for g in plan_drawing(garden_plan(), garden_report(), DrawingOptions(parts=PARTS)).groups
    }
    assert apart["C"].shapes[0].style != "leader"
