"""Two published traverses, closed by the compass rule."""

import math

import pytest

from design.survey.bearings import bearing_deg
from design.survey.readings import Leg, SurveyError
from design.survey.traverse import balance_by_compass_rule, likely_errors_m, turned_errors_m, walk

# Source: worked example of a closed traverse by the compass rule, scribd document 493615208, opened.
# Point, length, bearing, latitude, departure, adjusted latitude, adjusted departure. Its +0.285 of
# closure in latitude sums latitudes that were rounded first: hence the tolerance of 0.002.
FIELD = [
    ("B", 80.40, "N76E", 19.451, 78.012, 19.3653, 78.1055),
    ("C", 46.30, "S36E", -37.457, 27.214, -37.5063, 27.2678),
    ("D", 72.80, "S61W", -35.294, -63.672, -35.3716, -63.5874),
    ("A", 68.00, "N38W", 53.585, -41.865, 53.5126, -41.7859),
]
# Source: Purdue University, ASM 215, engineering.purdue.edu/~asm215/topics/travcalc.html, opened.
# Point, length, bearing, latitude, departure, balanced coordinates north and east.
PURDUE = [
    ("B", 285.10, "N26°10'E", 255.88, 125.72, 10255.96, 10125.66),
    ("C", 610.45, "S75°25'E", -153.70, 590.78, 10102.44, 10716.31),
    ("D", 720.48, "S15°30'W", -694.28, -192.54, 9408.37, 10523.62),
    ("E", 203.00, "N1°42'W", 202.91, -6.02, 9611.34, 10517.55),
    ("A", 647.02, "N53°06'W", 388.48, -517.41, 10000.00, 10000.00),
]


def walked(rows, start=(0.0, 0.0)):
    return walk(start, [Leg(row[0], row[1], bearing_deg(row[2])) for row in rows])


def test_field_traverse_before_the_rule():
    traverse = walked(FIELD)
    for row, stretch in zip(FIELD, traverse.stretches, strict=True):
        assert (stretch.latitude_m, stretch.departure_m) == pytest.approx(row[3:5], abs=0.002)
    assert traverse.length_m == pytest.approx(267.50)
    assert traverse.misclosure_north_m == pytest.approx(0.285, abs=0.002)
    assert traverse.misclosure_east_m == pytest.approx(-0.3111, abs=0.002)
    assert traverse.ratio == pytest.approx(635, abs=1)


def test_field_traverse_after_the_rule():
    balanced = balance_by_compass_rule(walked(FIELD))
    for row, stretch in zip(FIELD, balanced.stretches, strict=True):
        assert (stretch.latitude_m, stretch.departure_m) == pytest.approx(row[5:7], abs=0.002)
    assert balanced.misclosure_m == pytest.approx(0, abs=1e-9)
    assert balanced.ratio == math.inf


def test_purdue_traverse_misclosure():
    traverse = walked(PURDUE, (10000.0, 10000.0))
    for row, stretch in zip(PURDUE, traverse.stretches, strict=True):
        assert (stretch.latitude_m, stretch.departure_m) == pytest.approx(row[3:5], abs=0.01)
    # published from rounded latitudes: -0.71, +0.53, linear 0.89
    assert traverse.misclosure_north_m == pytest.approx(-0.71, abs=0.01)
    assert traverse.misclosure_east_m == pytest.approx(0.53, abs=0.01)
    assert traverse.misclosure_m == pytest.approx(0.89, abs=0.01)
    assert traverse.length_m == pytest.approx(2466.05)


def test_purdue_traverse_coordinates():
    balanced = balance_by_compass_rule(walked(PURDUE, (10000.0, 10000.0)))
    for row, (east, north) in zip(PURDUE, balanced.points, strict=True):
        assert (north, east) == pytest.approx(row[5:7], abs=0.01)


def test_the_walk_is_only_balanced_on_request():
    assert not walked(FIELD).balanced
    assert walked(FIELD).points[-1] != pytest.approx((0, 0), abs=0.1)


def test_a_walk_between_two_known_points():
    link = walk((0, 0), [Leg("1", 10, 90), Leg("2", 10, 90)], close=(20.2, 0.1))
    assert (link.misclosure_east_m, link.misclosure_north_m) == pytest.approx((-0.2, -0.1))
    assert balance_by_compass_rule(link).points == (pytest.approx((10.1, 0.05)), pytest.approx((20.2, 0.1)))


# Limits: common practice, no source: 0.3 m or 1 % good, above 2 % walked again
@pytest.mark.parametrize(("miss_m", "verdict"), [(0.9, "good"), (1.5, "unsure"), (2.5, "walk again")])
def test_verdict_on_a_hundred_metres(miss_m, verdict):
    assert walk((0, 0), [Leg("1", 100, 0)], close=(0, 100 + miss_m)).verdict == verdict


# Source: worked by hand: two legs of 10 m, 1 % in length only: 0.1 and 0.1 sqrt(2);
# shared out, the middle keeps 0.1 · sqrt(1/2), the end nothing
def test_likely_error_grows_and_is_shared_out():
    out = walk((0, 0), [Leg("1", 10, 90), Leg("2", 10, 90)], close=(20.0, 0.0))
    assert likely_errors_m(out, 0.01, 0) == pytest.approx((0.1, 0.1414), abs=1e-4)
    shared = likely_errors_m(balance_by_compass_rule(out), 0.01, 0)
    assert shared == pytest.approx((0.0707, 0), abs=1e-4)


# Source: worked by hand: 1° at 10 m is 0.17453; the second point swings 20 m and 10 m: sqrt(5) as much
def test_a_wrong_turn_swings_what_follows():
    out = walk((0, 0), [Leg("1", 10, 90), Leg("2", 10, 90)], close=(20.0, 0.0))
    assert turned_errors_m(out, 0, 1) == pytest.approx((0.17453, 0.39026), abs=1e-5)


@pytest.mark.parametrize("legs", [[], [Leg("1", 0, 0)], [Leg("1", 5, math.nan)]])
def test_a_walk_that_cannot_be_is_refused(legs):
    with pytest.raises(SurveyError):
        walk((0, 0), legs)
