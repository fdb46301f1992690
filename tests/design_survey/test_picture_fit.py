"""Pixels to metres: similarities and projective fits, worked by hand and against scipy."""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares

from design.survey.picture_fit import fit_slanted, fit_two, misses_m
from design.survey.readings import SurveyError


# Source: worked by hand. 100 pixels to the right are 10 m to the east: 0.1 m a pixel, down is south.
def test_a_picture_that_looks_north():
    fit = fit_two(((100, 200), (200, 200)), ((0, 0), (10, 0)))
    assert fit.ground((100, 200)) == pytest.approx((0, 0))
    assert fit.ground((150, 150)) == pytest.approx((5, 5))
    assert fit.ground((100, 300)) == pytest.approx((0, -10))
    assert fit.metres_per_pixel((0, 0)) == pytest.approx(0.1)


# By hand: to the right in the picture is north (bearing 0), so up in the picture is west.
def test_a_picture_that_is_turned():
    fit = fit_two(((0, 0), (50, 0)), ((3, 4), (3, 14)))
    assert fit.ground((0, -50)) == pytest.approx((-7, 4))
    assert fit.ground((25, 25)) == pytest.approx((8, 9))


def test_lengths_keep_their_shares_whatever_the_turn():
    fit = fit_two(((10, 80), (330, 260)), ((2, 1), (9, 6)))
    scale = math.dist((2, 1), (9, 6)) / math.dist((10, 80), (330, 260))
    for a, b in (((0, 0), (40, 30)), ((5, 9), (500, 7))):
        assert math.dist(fit.ground(a), fit.ground(b)) == pytest.approx(scale * math.dist(a, b))


@pytest.mark.parametrize(("second_px", "second"), [((101, 200), (10, 0)), ((200, 200), (0, 0))])
def test_two_points_on_one_spot_fix_nothing(second_px, second):
    with pytest.raises(SurveyError, match="one spot"):
        fit_two(((100, 200), second_px), ((0, 0), second))


# Source: worked by hand. u = x / (1 − y/400), v = −y / (1 − y/400), tenths of a metre: a lawn seen
# from its near edge. (0,0) → (0,0); (200,0) → (20,0); (0,−400) → (0,20); (200,−400) → (10,20).
SLANTED_PX = [(0, 0), (200, 0), (0, -400), (200, -400)]
SLANTED_M = [(0, 0), (20, 0), (0, 20), (10, 20)]


def by_hand(x, y):
    return (0.1 * x / (1 - y / 400), -0.1 * y / (1 - y / 400))


def test_four_points_undo_a_slant_exactly():
    for pixel, place in zip(SLANTED_PX, SLANTED_M, strict=True):
        assert by_hand(*pixel) == pytest.approx(place)
    fit = fit_slanted(SLANTED_PX, SLANTED_M)
    assert max(misses_m(fit, SLANTED_PX, SLANTED_M)) < 1e-9
    for pixel in ((100, -100), (37, -333), (150, 20)):
        assert fit.ground(pixel) == pytest.approx(by_hand(*pixel))


# By hand: the middle of a square seen as a trapezium lies where its diagonals cross, here two thirds
# of the way up and not half-way.
def test_the_diagonals_still_cross_in_the_middle():
    pixels = [(-200, 0), (200, 0), (100, -100), (-100, -100)]
    fit = fit_slanted(pixels, [(0, 0), (10, 0), (10, 10), (0, 10)])
    assert fit.ground((0, -200 / 3)) == pytest.approx((5, 5))


def test_more_points_are_fitted_as_scipy_fits_them():
    pixels = [(120, 900), (1400, 860), (1250, 240), (300, 260), (700, 500), (900, 300)]
    noise = np.random.default_rng(7).normal(0, 0.05, (6, 2))
    exact = fit_slanted(pixels[:4], [(0, 0), (20, 1), (22, 15), (-1, 14)])
    ground = [tuple(np.array(exact.ground(p)) + n) for p, n in zip(pixels, noise, strict=True)]

    def residuals(eight):
        m = np.append(eight, 1.0).reshape(3, 3)
        images = np.column_stack([np.array(pixels) / 1000, np.ones(6)]) @ m.T
        return (images[:, :2] / images[:, 2:] - np.array(ground)).ravel()

    fit = fit_slanted(pixels, ground)
    begin = np.array(fit.matrix) @ np.diag([1000, 1000, 1]) / fit.matrix[2][2]
    theirs = least_squares(residuals, begin.ravel()[:8] * 1.02, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    ours = sum(miss**2 for miss in misses_m(fit, pixels, ground))
    assert ours == pytest.approx(2 * theirs.cost, rel=1e-5)
    assert ours > 0


@pytest.mark.parametrize(
    ("pixels", "says"),
    [
        (SLANTED_PX[:3], "four known points"),
        ([(0, 0), (100, 0), (200, 0), (0, 100)], "one line"),
        ([(5, 5)] * 4, "one line"),
    ],
)
def test_what_holds_no_plane_is_refused(pixels, says):
    with pytest.raises(SurveyError, match=says):
        fit_slanted(pixels, SLANTED_M[: len(pixels)])


def test_beyond_the_horizon_there_is_no_ground():
    with pytest.raises(SurveyError, match="horizon"):
        fit_slanted(SLANTED_PX, SLANTED_M).ground((0, 450))


@pytest.mark.parametrize(
    ("pixels", "ground"),
    [
        ([(300, 200), (300, 200), (200, 100), (300, 100), (200, 300)],
         [(5, 0), (2, 2), (1, 5), (2, 0), (1, 5)]),
        ([(0, 0), (300, 0), (200, 0), (0, 300), (100, 100), (0, 200)],
         [(0, 2), (0, 2), (2, 0), (0, 2), (0, 1), (2, 5)]),
        # x' = x / (x - 5), y' = y / (x - 5): two of the points lie before the horizon and two behind
        ([(0, 0), (0, 10), (10, 0), (10, 10)], [(0, 0), (0, -2), (2, 0), (2, 2)]),
    ],
)  # fmt: skip
def test_points_that_belong_to_no_picture_are_refused(pixels, ground):
    with pytest.raises(SurveyError):
        fit_slanted(pixels, ground)
