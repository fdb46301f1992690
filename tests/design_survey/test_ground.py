"""The measured ground as a fragment of a plan document."""

import pytest
from shapely.geometry import Point, Polygon

from design.document import Ground
from design.survey.document import PlaneSurvey
from design.survey.ground import FENCE_WIDTH_M, ground_of
from design.survey.reduce import reduce_plane


def length(metres):
    return {"text": f"{metres} m", "m": metres}


def mark(name, east, north):
    return {"name": name, "label": f"peg {name}", "east": length(east), "north": length(north)}


CORNERS = [mark("A", 0, 0), mark("B", 20, 0), mark("C", 20, 10), mark("D", 10, 10), mark("E", 10, 4)]
ALL = list("ABCDE")


def ground(*outlines):
    survey = PlaneSurvey.model_validate({"marks": CORNERS, "outlines": list(outlines)})
    found = ground_of(reduce_plane(survey), survey)
    assert Ground.model_validate(found)
    return found


def outline(becomes, kind, points, **more):
    return {"id": "x", "label": "It", "becomes": becomes, "kind": kind, "points": points, **more}


def test_marks_areas_surfaces_and_services_go_over_as_they_are():
    assert ground()["marks"][1] == {"id": "B", "label": "peg B", "at": [20.0, 0.0]}
    area = ground(outline("area", "bed", ALL))["areas"][0]
    assert (area["cover"], area["label"], area["outline"][2]) == ("bed", "It", [20.0, 10.0])
    assert ground(outline("surface", "paving", ALL))["surfaces"][0]["kind"] == "paving"
    gas = ground(outline("service", "gas", ["A", "C"], depth=length(0.6)))["services"][0]
    assert (gas["kind"], gas["path"], gas["depth_m"]) == ("gas", [[0.0, 0.0], [20.0, 10.0]], 0.6)
    assert "depth_m" not in ground(outline("service", "gas", ["A", "C"]))["services"][0]


@pytest.mark.parametrize("names", [ALL, ALL[::-1]])
def test_a_property_line_becomes_the_neighbours_ground_beyond_each_side(names):
    strips = [Polygon(one["outline"]) for one in ground(outline("boundary", "neighbour", names))["surfaces"]]
    inside = Polygon([(0, 0), (20, 0), (20, 10), (10, 10), (10, 4)])
    assert len(strips) == 5
    for strip in strips:
        assert strip.is_valid
        assert strip.intersection(inside).area < 1e-6
    for at in ((10, -1), (21, 5), (15, 11), (9, 7)):
        assert any(strip.covers(Point(at)) for strip in strips)


def test_a_fence_is_a_thin_strip_along_each_of_its_sides():
    open_line = ground(outline("boundary", "fence", ["A", "B", "C"]))["surfaces"]
    assert [one["id"] for one in open_line] == ["x-1", "x-2"]
    assert {one["kind"] for one in open_line} == {"fence"}
    assert Polygon(open_line[0]["outline"]).area == pytest.approx(20 * FENCE_WIDTH_M, rel=0.01)
    round_it = ground(outline("boundary", "fence", [*ALL, "A"]))["surfaces"]
    assert len(round_it) == 5


def test_an_outline_that_cannot_be_is_left_out():
    assert ground(outline("area", "turf", ["A", "nowhere", "B"]))["areas"] == []
