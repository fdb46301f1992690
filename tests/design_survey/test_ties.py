"""Two tapes from two marks."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from design.survey.readings import SurveyError, Tie
from design.survey.ties import TapesDoNotMeet, meet, meeting_angle_deg, place_tie, tie_error_m

MARKS = {"A": (0.0, 0.0), "B": (14.0, 0.0), "C": (0.0, 14.0)}


def test_the_triangle_13_14_15():
    # Source: the Heronian triangle 13-14-15, height 12 over its side 14 (Heron, Metrica I; from memory)
    assert meet(13, 15, 14) == pytest.approx((5, 12))


@pytest.mark.parametrize(("side", "at"), [("left", (5, 12)), ("right", (5, -12))])
def test_the_side_is_as_seen_from_the_first_mark(side, at):
    assert place_tie(Tie("1", "A", "B", 13, 15, side), MARKS).at == pytest.approx(at)


def test_left_of_a_line_that_runs_north_is_west():
    assert place_tie(Tie("1", "A", "C", 13, 15, "left"), MARKS).at == pytest.approx((-12, 5))


def test_tapes_that_are_too_short_say_by_how_much():
    with pytest.raises(TapesDoNotMeet, match=r"1\.50 m shorter than the 14\.00 m") as refused:
        meet(6, 6.5, 14)
    assert refused.value.gap_m == pytest.approx(1.5)


@pytest.mark.parametrize(("tapes", "name"), [((20, 5.25), "first"), ((5.25, 20), "second")])
def test_a_tape_that_is_too_long_says_by_how_much(tapes, name):
    with pytest.raises(TapesDoNotMeet, match=rf"The {name} tape is 0\.75 m longer"):
        meet(*tapes, 14)


@pytest.mark.parametrize("tapes", [(math.nan, 15), (13, math.inf), (-1, 15)])
def test_what_no_tape_shows_is_refused(tapes):
    with pytest.raises(SurveyError, match="must be a length"):
        meet(*tapes, 14)


def test_marks_on_one_spot_or_unknown_are_refused():
    with pytest.raises(SurveyError, match="same spot"):
        place_tie(Tie("1", "A", "A", 3, 3, "left"), MARKS)
    with pytest.raises(SurveyError, match="Z has no place"):
        place_tie(Tie("1", "A", "Z", 3, 3, "left"), MARKS)


# Source: worked by hand, law of cosines: 13, 15 over 14 -> cos = 198/390, 59.49°;
# 10, 10 over 10 -> 60°, so 0.02 · sqrt(2) / sin 60° = 0.03266
def test_angle_and_error_of_the_meeting():
    assert meeting_angle_deg(13, 15, 14) == pytest.approx(59.49, abs=0.005)
    assert meeting_angle_deg(10, 10, 10) == pytest.approx(60)
    assert tie_error_m(60, 0.02) == pytest.approx(0.03266, abs=5e-6)
    assert tie_error_m(0) == math.inf


# Source for 30 to 150°: common practice, no source
@pytest.mark.parametrize(("angle_deg", "weak"), [(29, True), (31, False), (149, False), (151, True)])
def test_a_flat_or_sharp_meeting_is_weak(angle_deg, weak):
    tape_m = 7 / math.sin(math.radians(angle_deg / 2))  # two equal tapes over 14 m
    placed = place_tie(Tie("1", "A", "B", tape_m, tape_m, "left"), MARKS)
    assert placed.weak is weak
    assert (f"{angle_deg}°" in placed.caution) is weak


@settings(max_examples=60, deadline=None)
@given(st.floats(-60, 60), st.floats(-60, 60))
def test_exact_tapes_give_the_point_back(x, y):
    if abs(y) < 0.05:
        return
    side = "left" if y > 0 else "right"
    first_m, second_m = math.dist((x, y), MARKS["A"]), math.dist((x, y), MARKS["B"])
    assert place_tie(Tie("1", "A", "B", first_m, second_m, side), MARKS).at == pytest.approx((x, y), abs=1e-6)
