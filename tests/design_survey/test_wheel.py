"""The wheel's factor, and the outline's way round and area."""

import math

import pytest

from design.survey.readings import SurveyError
from design.survey.wheel import calibrate, check_perimeter, measure_outline

# Lawn with an odd edge. Source: 181.0 m² and 52.69 m worked by hand, shoelace formula and Pythagoras
ODD_EDGE = [(0, 0), (9, -1), (16, 2), (17, 8), (12, 9), (10, 13), (3, 12), (-1, 6)]


def test_size_of_the_odd_edge():
    size = measure_outline(ODD_EDGE)
    assert size.area_m2 == pytest.approx(181.0, abs=0.05)
    assert size.perimeter_m == pytest.approx(52.69, abs=0.005)


def test_the_wheel_round_the_odd_edge():
    check = check_perimeter(53.4, ODD_EDGE)
    assert check.difference_pct == pytest.approx(1.3, abs=0.05)  # worked by hand: 53.4 / 52.69
    assert check.accepted


def test_a_wheel_more_than_two_percent_off_is_not_accepted():
    assert not check_perimeter(54.0, ODD_EDGE).accepted
    assert not check_perimeter(51.0, ODD_EDGE).accepted
    assert check_perimeter(54.0, ODD_EDGE, factor=0.98).accepted


# Limits 0.98 to 1.02 over a tape of 10.00 m: common practice, no source
@pytest.mark.parametrize(
    ("shown_m", "factor", "plausible"),
    [
        (10.0, 1.0, True),
        (10.15, 0.98522, True),
        (9.82, 1.01833, True),
        (10.3, 0.97087, False),
        (32.8, 0.30488, False),
    ],
)
def test_factor_over_ten_metres(shown_m, factor, plausible):
    calibration = calibrate(shown_m)
    assert calibration.factor == pytest.approx(factor, abs=5e-6)
    assert (calibration.caution == "") is plausible
    assert calibration.true_m(shown_m) == pytest.approx(10)


@pytest.mark.parametrize("shown_m", [0, -1, math.nan, math.inf])
def test_a_reading_that_cannot_be_is_refused(shown_m):
    with pytest.raises(SurveyError, match="wheel's reading"):
        calibrate(shown_m)


@pytest.mark.parametrize(
    "outline", [[(0, 0), (1, 1)], [(0, 0), (4, 4), (4, 0), (0, 4)], [(0, 0), (1, 1), (2, 2)]]
)
def test_an_outline_that_encloses_nothing_true_is_refused(outline):
    with pytest.raises(SurveyError):
        measure_outline(outline)
