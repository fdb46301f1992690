"""Rough places from ties and offsets, and from there to adjusted ones."""

import math

import pytest

from design.survey.adjust import adjust
from design.survey.readings import Distance, Offset, SurveyError, Tie
from design.survey.start import distances_of, rough_places

MARKS = {"A": (4.0, 15.0), "B": (20.0, 15.0)}


def test_points_are_placed_from_points_placed_before():
    # Source: worked by hand, the triangle 3-4-5 hung below the wall, and an offset from its corner
    ties = [Tie("2", "1", "B", 12.0, 20.0, "right"), Tie("1", "A", "B", 12.0, 20.0, "right")]
    places = rough_places(MARKS, ties, [Offset("3", "A", "1", 6.0, 2.0, "left")])
    assert places["1"] == pytest.approx((4, 3))
    assert places["3"] == pytest.approx((6, 9))  # facing south, left is east
    assert math.dist(places["2"], places["1"]) == pytest.approx(12)
    assert math.dist(places["2"], MARKS["B"]) == pytest.approx(20)


def test_a_point_out_of_reach_is_named():
    with pytest.raises(SurveyError, match="Nothing ties 7"):
        rough_places(MARKS, [Tie("7", "8", "A", 3, 3, "left")])


def test_tapes_that_miss_each_other_still_lead_to_the_blunder():
    true = (12.0, 6.0)
    tapes = [math.dist(true, MARKS["A"]), math.dist(true, MARKS["B"])]
    tie = Tie("1", "A", "B", tapes[0] - 9.0, tapes[1], "right")  # 3.04 typed for 12.04
    marks = {**MARKS, "C": (4.0, 0.0), "D": (20.0, 0.0)}
    start = rough_places(marks, [tie])
    more = [Distance(mark, "1", math.dist(true, marks[mark])) for mark in ("C", "D")]
    result = adjust(marks, start, [*distances_of([tie], 0.02), *more])
    assert result.suspects[0].distance.name == "A to 1"
    assert result.suspects[0].blunder_m < -5
