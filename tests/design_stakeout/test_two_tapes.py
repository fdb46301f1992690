"""Tape distances from two marks, and where two tapes meet."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from design.document import Mark
from design.stakeout import TAPE_SIGMA_M, TapeError, best_tie, buildings_of, tie_to, two_tape_point
from tests.design_stakeout.gardens import plan_of

A, B = Mark(id="A", at=(4, 15)), Mark(id="B", at=(20, 15))

# Plain rectangle with house wall y = 15: (12,6) 12.04/12.04/83.3°, and so on.
# Source: worked by hand from Pythagoras and the law of cosines; tolerance half of the last digit.
PLAIN_RECTANGLE = [
    ((12, 6), 12.04, 12.04, 83.3, True),
    ((0, 0), 15.52, 25.00, 38.2, True),
    ((18, 12), 14.32, 3.61, 111.6, True),
    ((0, 12), 5.00, 20.22, 28.3, False),
    ((0, 14), 4.12, 20.02, 11.2, False),
]


@pytest.mark.parametrize(("point", "first_m", "second_m", "angle_deg", "good"), PLAIN_RECTANGLE)
def test_ties_of_the_plain_rectangle(point, first_m, second_m, angle_deg, good):
    tie = tie_to(point, A, B)
    assert tie.first_m == pytest.approx(first_m, abs=0.005)
    assert tie.second_m == pytest.approx(second_m, abs=0.005)
    assert tie.angle_deg == pytest.approx(angle_deg, abs=0.05)
    assert tie.good is good
    assert tie.side == "right"  # all points lie south of a line that runs east


def test_side_turns_with_the_direction_one_faces():
    assert tie_to((12, 6), B, A).side == "left"
    assert tie_to((12, 15), A, B).side == "on the line"


def test_error_grows_as_the_tapes_flatten():
    # sigma sqrt(2) / sin(gamma): textbook surveying, from memory. At 90° only sqrt(2) is left.
    square = tie_to((0, 10), Mark(id="P", at=(0, 0)), Mark(id="Q", at=(10, 10)))
    assert square.angle_deg == pytest.approx(90)
    assert square.error_m == pytest.approx(TAPE_SIGMA_M * math.sqrt(2))
    sharp = tie_to((0, 14), A, B)
    assert sharp.error_m == pytest.approx(
        TAPE_SIGMA_M * math.sqrt(2) / math.sin(math.radians(11.2)), rel=0.01
    )
    assert tie_to((24, 15), A, B).error_m == math.inf


def test_a_point_with_a_sharp_angle_takes_another_pair():
    third = Mark(id="C", at=(-6, 2))
    tie = best_tie((0, 14), [A, B, third])
    assert {tie.first, tie.second} == {"A", "C"} or {tie.first, tie.second} == {"B", "C"}
    assert tie.good


def test_a_long_tape_comes_after_a_short_one():
    near, far = [Mark(id="N1", at=(-10, 0)), Mark(id="N2", at=(3, 9))], Mark(id="F", at=(40, 0.5))
    tie = best_tie((0, 0), [*near, far])
    assert {tie.first, tie.second} == {"N1", "N2"}


def test_a_tape_does_not_pass_through_a_house():
    plan = plan_of(
        marks=[A, B, Mark(id="C", at=(-10, 30))],
        buildings=[[(4, 15), (20, 15), (20, 23), (4, 23)]],
    )
    behind_the_house = (12.0, 30.0)
    walls = buildings_of(plan)
    assert tie_to(behind_the_house, A, B, walls).blocked
    assert not tie_to((12, 6), A, B, walls).blocked  # along its own wall, and in front of it
    assert not tie_to((0, 15), A, B, None).blocked


def test_no_tie_without_two_marks():
    assert best_tie((1, 1), [A]) is None
    assert best_tie((1, 1), []) is None


def test_two_tapes_of_the_reference_triangle():
    # d 14, a 13, b 15 -> (5, ±12): the 13-14-15 triangle, whose height on 14 is 12 exactly.
    assert two_tape_point(13, 15, 14) == pytest.approx((5, 12))


@pytest.mark.parametrize(
    ("first", "second", "base"), [(3, 4, 8), (10, 1, 8), (1, 10, 8), (1, 1, 0), (-1, 3, 3)]
)
def test_tapes_that_cannot_meet_are_refused(first, second, base):
    with pytest.raises(TapeError):
        two_tape_point(first, second, base)


coordinate = st.floats(min_value=-40, max_value=40, allow_nan=False)


@given(x=coordinate, y=coordinate)
def test_taping_back_finds_the_point(x, y):
    tie = tie_to((x, y), A, B)
    along, off = two_tape_point(tie.first_m, tie.second_m + 1e-9, 16)
    assert along == pytest.approx(x - 4, abs=1e-3)
    assert off == pytest.approx(abs(y - 15), abs=0.05)
