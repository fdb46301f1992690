"""Tapes of a lawn, each varied by twice its error, against what two tapes do by geometry."""

import json
import math

import pytest

from design.fragile import Outcome, find_fragile
from design.survey.document import PlaneSurvey
from design.survey.reduce import reduce_plane
from design.varied_ground import ground_readings, with_measured_ground
from tests.design.plans import make_document

# Site S1 of a plain rectangle: fixed corners (4, 15) and (20, 15), a lawn of 24 m x 12 m.
MARKS, CORNERS = {"A": (4, 15), "B": (20, 15)}, {"1": (0, 0), "2": (24, 0), "3": (24, 12), "4": (0, 12)}


def length(metres):
    return {"text": f"{metres:g} m", "m": metres}


def tie(name, at):
    first, second = (round(math.dist(MARKS[mark], at), 3) for mark in ("A", "B"))
    return {
        "point": name, "first": "A", "first_tape": length(first),
        "second": "B", "second_tape": length(second), "side": "right",
    }  # fmt: skip


@pytest.fixture
def survey():
    document = {
        "marks": [
            {"name": "A", "east": length(4), "north": length(15)},
            {"name": "B", "off": "A", "distance": length(16)},
        ],
        "ties": [tie(name, at) for name, at in CORNERS.items()],
        "outlines": [{"id": "lawn", "becomes": "area", "kind": "turf", "points": list(CORNERS)}],
    }
    return PlaneSurvey.model_validate_json(json.dumps(document))


@pytest.fixture
def measured(survey):
    return with_ground_of(make_document(), survey)


def with_ground_of(document, survey):
    return with_measured_ground(document, survey, reduce_plane(survey))


def unchecked(document):
    return Outcome(document, None)


def test_every_tape_is_varied_once_up_and_once_down(survey, measured):
    readings = list(ground_readings(measured, survey))
    assert len(readings) == 2 * len(CORNERS) + 1  # and the distance from A to B
    assert all(len(list(reading.documents())) == 2 for reading in readings)


def test_a_tape_moves_its_corner_by_its_error_over_the_sine_of_the_angle(survey, measured):
    """Corner 4 sees the marks under 28.3°: a tape that is 0.04 m off moves it by 0.04 / sin 28.3°."""
    reading = next(r for r in ground_readings(measured, survey) if r.key == "ground.ties.3.first_tape")
    corners = [
        dict(zip("1234", d["ground"]["areas"][0]["outline"], strict=True)) for d in reading.documents()
    ]
    for moved in corners:
        gap = math.dist(moved["4"], CORNERS["4"])
        assert gap == pytest.approx(0.04 / math.sin(math.radians(28.3)), rel=0.05)
        assert math.dist(moved["2"], CORNERS["2"]) < 0.002


def test_ground_drawn_by_hand_stays(survey):
    drawn = make_document(ground={"areas": [{"id": "bed", "outline": [[30, 0], [31, 0], [31, 1]]}]})
    areas = with_ground_of(drawn, survey)["ground"]["areas"]
    assert [area["id"] for area in areas] == ["bed", "lawn"]


def test_what_the_board_knows_of_a_measured_area_stays_with_it(survey, measured):
    """The survey says where an area lies, not what soil it has."""
    area = measured["ground"]["areas"][0]
    again = with_ground_of({**measured, "ground": {"areas": [{**area, "soil": "clay"}]}}, survey)
    assert again["ground"]["areas"][0]["soil"] == "clay"


def test_tapes_that_lie_along_each_other_make_their_corner_fragile(survey):
    """6.00 m and 10.01 m over 16 m: 0.27 m off the line, and 0.61 m with the first tape 0.04 m longer.

    Off the line: the root of 6.00² - 5.99375², and of 6.04² - 6.0088².
    """
    data = survey.model_dump(mode="json")
    data["ties"][0] |= {"first_tape": length(6.0), "second_tape": length(10.01)}
    data["outlines"][0]["points"] = ["1", "4", "2", "3"]
    flat = PlaneSurvey.model_validate_json(json.dumps(data))
    base = with_ground_of(make_document(), flat)
    found = {one.key: one for one in find_fragile(unchecked(base), ground_readings(base, flat), unchecked)}
    first = found["ground.ties.0.first_tape"]
    assert first.moved == "lawn"
    assert first.moved_m == pytest.approx(
        math.sqrt(6.04**2 - 6.0088**2) - math.sqrt(6**2 - 5.99375**2), abs=0.02
    )
