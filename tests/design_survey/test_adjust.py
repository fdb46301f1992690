"""Least squares over redundant tapes: places, errors, and which tape is wrong."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from design.survey.adjust import adjust
from design.survey.readings import Distance, SurveyError

MARKS = {"A": (4.0, 15.0), "B": (20.0, 15.0)}
# A braced quadrilateral: four corners, their sides and both diagonals, each tied to the house wall
CORNERS = {"1": (0.0, 0.0), "2": (24.0, 0.0), "3": (24.0, 12.0), "4": (0.0, 12.0)}


def taped(places, pairs, sigma_m=0.02):
    return [Distance(a, b, math.dist(places[a], places[b]), sigma_m) for a, b in pairs]


def braced(corners=CORNERS):
    pairs = [*itertools.combinations(corners, 2), *itertools.product(MARKS, corners)]
    return taped({**MARKS, **corners}, pairs)


def nudged(corners, by=0.3):
    return {name: (x + by, y - by) for name, (x, y) in corners.items()}


def longer(distances, number, by_m):
    wrong = distances[number]
    spoilt = Distance(wrong.first, wrong.second, wrong.length_m + by_m, wrong.sigma_m)
    return [*distances[:number], spoilt, *distances[number + 1 :]]


# Source: worked by hand. Marks 10 m apart on a line, tapes 4.00 and 6.10 to a point between, and one
# of 10.00 from a mark square above (3.95, 0): the spare 0.10 is shared evenly, so x = 3.95, both
# residuals -0.05; with sigma 0.05 sigma0 = sqrt(2), redundancies 1/2, 1/2, 0, standardised -sqrt(2).
def test_three_tapes_by_hand():
    marks = {"A": (0.0, 0.0), "B": (10.0, 0.0), "C": (3.95, 10.0)}
    lengths = {"A": 4.00, "B": 6.10, "C": 10.00}
    result = adjust(marks, {"P": (4.2, 0.4)}, [Distance(mark, "P", m, 0.05) for mark, m in lengths.items()])
    assert result.points[0].at == pytest.approx((3.95, 0), abs=1e-6)
    assert [one.residual_m for one in result.residuals] == pytest.approx([-0.05, -0.05, 0], abs=1e-6)
    assert result.sigma0 == pytest.approx(math.sqrt(2))
    assert [one.redundancy for one in result.residuals] == pytest.approx([0.5, 0.5, 0], abs=1e-6)
    assert [one.standardised for one in result.residuals] == pytest.approx([-1.41421, -1.41421, 0], abs=1e-4)
    assert [one.checked for one in result.residuals] == [True, True, False]
    # east sigma 0.05 / sqrt(2), north 0.05, both times sigma0
    point = result.points[0]
    assert (point.half_axis_m, point.short_half_axis_m) == pytest.approx((0.05 * math.sqrt(2), 0.05))
    assert math.sin(math.radians(point.bearing_deg)) == pytest.approx(0, abs=1e-5)  # north or south


# Source: sigma sqrt(2) / sin(gamma), textbook surveying, from memory; 13-14-15 has sin = 12·14/(13·15)
def test_two_tapes_alone_have_the_error_of_the_textbook():
    tapes = [Distance("A", "P", 13, 0.02), Distance("B", "P", 15, 0.02)]
    result = adjust({"A": (0, 0), "B": (14, 0)}, {"P": (5.5, 11)}, tapes)
    assert result.points[0].at == pytest.approx((5, 12), abs=1e-6)
    assert result.points[0].error_m == pytest.approx(0.02 * math.sqrt(2) * 195 / 168)
    assert (result.spare, result.sigma0, result.suspects) == (0, None, ())


# Source for 30 to 150°: common practice, no source. A third tape from below makes the point firm.
@pytest.mark.parametrize(("angle_deg", "weak"), [(29, True), (31, False), (149, False), (151, True)])
def test_an_adjusted_point_is_weak_where_its_two_tapes_are(angle_deg, weak):
    half = math.radians(angle_deg / 2)
    marks, at = {"A": (0.0, 0.0), "B": (14.0, 0.0), "C": (0.0, 0.0)}, (7.0, 7 / math.tan(half))
    marks["C"] = (7.0, at[1] - 9) if angle_deg > 90 else (-9.0, at[1])
    tapes = [Distance(mark, "P", math.dist(marks[mark], at)) for mark in marks]
    start = {"P": (at[0] + 0.1, at[1] + 0.1)}
    assert adjust(marks, start, tapes[:2]).points[0].weak is weak
    assert not adjust(marks, start, tapes).points[0].weak


# Source: scipy.optimize.least_squares on the same readings, an independent solver
def test_readings_with_noise_settle_where_scipy_does():
    noise = np.random.default_rng(7).normal(0, 0.02, len(braced()))
    tapes = [Distance(t.first, t.second, t.length_m + e, 0.02) for t, e in zip(braced(), noise, strict=True)]

    def gaps(flat):
        places = {**MARKS, **dict(zip(CORNERS, flat.reshape(-1, 2), strict=True))}
        return [(math.dist(places[t.first], places[t.second]) - t.length_m) / 0.02 for t in tapes]

    expected = least_squares(gaps, np.array(list(CORNERS.values())).ravel(), xtol=1e-12, ftol=1e-12)
    result = adjust(MARKS, nudged(CORNERS), tapes)
    assert np.ravel([point.at for point in result.points]) == pytest.approx(expected.x, abs=1e-5)
    assert result.sigma0 == pytest.approx(math.sqrt(2 * expected.cost / 6), rel=1e-6)
    covariance = np.linalg.inv(expected.jac.T @ expected.jac) * result.scale**2
    assert result.covariance == pytest.approx(covariance, rel=1e-3, abs=1e-7)


coordinate = st.floats(-1.5, 1.5)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(coordinate, coordinate), min_size=4, max_size=4))
def test_exact_readings_give_the_points_back(shifts):
    corners = {
        name: (x + dx, y + dy) for (name, (x, y)), (dx, dy) in zip(CORNERS.items(), shifts, strict=True)
    }
    result = adjust(MARKS, nudged(corners), braced(corners))
    for point in result.points:
        assert point.at == pytest.approx(corners[point.point], abs=1e-5)
    assert result.suspects == ()
    assert result.blunder_sentence == ""


# Measured from two marks, each of the fourteen tapes in turn is a metre wrong
@pytest.mark.parametrize("by_m", [1.0, -1.0])
@pytest.mark.parametrize("number", range(14))
def test_one_blunder_in_a_braced_quadrilateral_is_pointed_at(number, by_m):
    tapes = longer(braced(), number, by_m)
    result = adjust(MARKS, nudged(CORNERS), tapes)
    assert [one.distance for one in result.suspects] == [tapes[number]]
    assert result.suspects[0].blunder_m == pytest.approx(by_m, rel=0.15)
    word = "long" if by_m > 0 else "short"
    assert f"{tapes[number].name} reads about" in result.blunder_sentence
    assert f"m too {word}" in result.blunder_sentence


# Source: with one spare reading all standardised residuals are equal (textbook, from memory): no one
# can tell which side or diagonal is wrong, and nothing else would be true to say
def test_a_single_spare_tape_shows_that_one_is_wrong_but_not_which():
    marks, corners = {"1": CORNERS["1"], "2": CORNERS["2"]}, {"3": CORNERS["3"], "4": CORNERS["4"]}
    tapes = taped(CORNERS, [("2", "3"), ("3", "4"), ("4", "1"), ("1", "3"), ("2", "4")])
    result = adjust(marks, nudged(corners, 0.1), longer(tapes, 3, 1.0))
    assert result.spare == 1
    assert len(result.suspects) == 5
    assert "one more is needed to tell which" in result.blunder_sentence


# 25.00 typed as 250.0, in each of the fourteen tapes: named, alone or with one other, as a blunder or
# where nothing fits. So far off the slopes no longer hold, and two tapes may look alike.
@pytest.mark.parametrize("number", range(14))
def test_a_slipped_decimal_point_is_named(number):
    tapes = braced()
    slipped = longer(tapes, number, tapes[number].length_m * 9)
    try:
        sentence = adjust(MARKS, nudged(CORNERS), slipped).blunder_sentence
    except SurveyError as refused:
        sentence = str(refused)
    assert tapes[number].name in sentence
    assert sum(tape.name in sentence for tape in tapes) <= 2


def test_a_tape_between_two_marks_checks_the_marks():
    tapes = [*braced(), Distance("A", "B", 16.5, 0.02)]
    assert adjust(MARKS, nudged(CORNERS), tapes).suspects[0].distance == tapes[-1]


def test_a_loose_point_is_named():
    tapes = [*braced(), Distance("A", "9", 5.0)]
    with pytest.raises(SurveyError, match=r"leave 9 loose"):
        adjust(MARKS, {**CORNERS, "9": (4.0, 10.0)}, tapes)


@pytest.mark.parametrize(
    "tapes",
    [
        [],
        [Distance("A", "1", math.nan)],
        [Distance("A", "1", 0)],
        [Distance("A", "1", 5, 0)],
        [Distance("A", "Z", 5)],
        [Distance("1", "1", 5)],
    ],
)
def test_readings_that_cannot_be_are_refused(tapes):
    with pytest.raises(SurveyError):
        adjust(MARKS, {"1": (0, 0)}, tapes)
