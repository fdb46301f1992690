"""Bearings as written, and from turns."""

import pytest

from design.survey.bearings import bearing_deg, bearings_from_turns, turn_misclosure_deg
from design.survey.readings import SurveyError


# Source: definition of the quadrant bearing; worked by hand
@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("N26°10'E", 26 + 10 / 60),
        ("S75°25'E", 180 - 75 - 25 / 60),
        ("s15°30'w", 195.5),
        ("N1°42'W", 358.3),
        ("N 76 E", 76),
        ("N0W", 0),
        ("254.5°", 254.5),
        ("360", 0),
    ],
)
def test_bearings_as_people_write_them(text, degrees):
    assert bearing_deg(text) == pytest.approx(degrees)


@pytest.mark.parametrize("text", ["", "N", "N95E", "N20°75'E", "E20N", "361", "-4", "nan", "inf"])
def test_what_is_no_bearing_is_refused(text):
    with pytest.raises(SurveyError, match="is no bearing"):
        bearing_deg(text)


def test_a_square_by_right_turns():
    assert bearings_from_turns(0, [90, 90, 90]) == [0, 90, 180, 270]
    assert bearings_from_turns(10, [-90]) == [10, 280]
    assert turn_misclosure_deg([90, 91, 90, 90]) == pytest.approx(1)
    assert turn_misclosure_deg([-90, -88, -90, -90]) == pytest.approx(2)


def test_more_than_half_a_turn_is_refused():
    with pytest.raises(SurveyError, match="between −180"):
        bearings_from_turns(0, [270])
