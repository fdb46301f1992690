"""The one further tape that helps most."""

import math

import pytest

from design.survey.adjust import adjust
from design.survey.extra_tape import best_extra_tape
from design.survey.readings import Distance, SurveyError

MARKS = {"A": (4.0, 15.0), "B": (20.0, 15.0), "C": (4.0, 0.0)}
# (0, 14) is seen from A and B under 11.2°, worked by hand: a weak point; (12, 6) under 83.3°
POINTS = {"weak": (0.0, 14.0), "good": (12.0, 6.0)}
PLACES = {**MARKS, **POINTS}


def tape(first, second):
    return Distance(first, second, math.dist(PLACES[first], PLACES[second]))


TAPES = [tape(mark, point) for mark in ("A", "B") for point in POINTS]


def test_the_weak_point_gets_the_tape_across():
    found = best_extra_tape(adjust(MARKS, POINTS, TAPES))
    assert (found.first, found.second, found.point) == ("C", "weak", "weak")
    # Source: 0.02 sqrt(2) / sin 11.2° = 0.146, worked by hand
    assert found.before_m == pytest.approx(0.146, abs=0.001)
    assert "C to weak" in found.sentence


@pytest.mark.parametrize("pair", [("C", "weak"), ("weak", "good"), ("A", "weak")])
def test_what_is_promised_is_what_the_tape_brings(pair):
    result = adjust(MARKS, POINTS, TAPES)
    promised = best_extra_tape(result, [pair])
    after = adjust(MARKS, POINTS, [*TAPES, tape(*pair)])
    error_m = next(point.error_m for point in after.points if point.point == "weak")
    assert promised.after_m == pytest.approx(error_m, rel=1e-6)
    assert promised.after_m < result.worst.error_m


def test_of_all_pairs_none_brings_more_than_the_one_named():
    result = adjust(MARKS, POINTS, TAPES)
    best = best_extra_tape(result)
    for pair in [("C", "weak"), ("C", "good"), ("weak", "good")]:
        after = adjust(MARKS, POINTS, [*TAPES, tape(*pair)])
        assert best.after_m <= {p.point: p.error_m for p in after.points}["weak"] + 1e-9


def test_a_tape_elsewhere_helps_nothing():
    result = adjust(MARKS, POINTS, TAPES)
    assert best_extra_tape(result, [("C", "good"), ("A", "B")]) is None
    assert best_extra_tape(result, []) is None


def test_an_unknown_name_is_refused():
    with pytest.raises(SurveyError, match="Z has no place"):
        best_extra_tape(adjust(MARKS, POINTS, TAPES), [("A", "Z")])
