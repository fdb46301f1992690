"""Low spots, contours and slopes of the surface between levels, worked by hand and against scipy."""

import math
import random
import time

import numpy as np
import pytest
from scipy.interpolate import LinearNDInterpolator

from design.document import Level
from design.terrain import contours, describe_area, low_spots, slope_pct, step_for

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]


def levels(*rows):
    return [Level(at=(x, y), z_m=z) for x, y, z in rows]


def bowl(corner_m=1.0):
    return levels((0, 0, 1), (10, 0, corner_m), (10, 10, 1), (0, 10, 1), (5, 5, 0))


def test_a_bowl_holds_water_up_to_its_rim():
    (hollow,) = [spot for spot in low_spots(bowl(), SQUARE) if spot.kind == "hollow"]
    assert (hollow.at, hollow.z_m, hollow.depth_m) == ((5, 5), 0, 1)
    assert hollow.area_m2 == pytest.approx(100)


def test_a_bowl_runs_over_at_its_lowest_pass():
    # by hand: over the corner at 0.4 m; two triangles are wet to 0.4 of their 25 m², two to 0.4²
    (hollow,) = [spot for spot in low_spots(bowl(0.4), SQUARE) if spot.kind == "hollow"]
    assert hollow.depth_m == pytest.approx(0.4)
    assert hollow.area_m2 == pytest.approx(2 * 10 + 2 * 4)
    assert hollow.below_m == pytest.approx(1)


def test_two_hollows_that_one_water_joins_are_one_pond():
    ground = levels(
        (0, 0, 2), (20, 0, 2), (20, 10, 2), (0, 10, 2), (5, 5, 0), (10, 5, 0.5), (15, 5, 0.2)
    )  # fmt: skip
    hollows = [s for s in low_spots(ground, [(0, 0), (20, 0), (20, 10), (0, 10)]) if s.kind == "hollow"]
    assert [(spot.at, spot.depth_m) for spot in hollows] == [((5, 5), 2)]


def test_a_slope_has_no_hollow_but_a_low_edge():
    ramp = levels((0, 0, 0), (10, 0, 0.5), (10, 10, 0.6), (0, 10, 0.1))
    (spot,) = low_spots(ramp, SQUARE)
    assert (spot.kind, spot.at, spot.depth_m, spot.area_m2) == ("edge", (0, 0), 0, None)
    assert spot.below_m == pytest.approx(0.6)


def test_a_level_edge_is_one_low_place():
    ramp = levels((0, 0, 0), (10, 0, 0.5), (10, 10, 0.5), (0, 10, 0))
    assert [(spot.kind, spot.z_m) for spot in low_spots(ramp, SQUARE)] == [("edge", 0)]


def test_the_edge_of_an_area_inside_a_slope():
    ramp = levels((0, 0, 0), (100, 0, 5), (100, 100, 5.5), (0, 100, 0.5))  # 5 % east, 0.5 % north
    (spot,) = low_spots(ramp, [(20, 20), (40, 20), (40, 30), (20, 30)])
    assert spot.at == (20, 20)
    assert spot.z_m == pytest.approx(0.05 * 20 + 0.005 * 20)
    assert spot.below_m == pytest.approx(0.05 * 20 + 0.005 * 10)


def test_an_inward_corner_on_a_slope_is_no_low_place():
    ramp = levels((0, 0, 0), (100, 0, 5), (100, 100, 5), (0, 100, 0))
    notched = [(20, 20), (60, 20), (60, 60), (40, 40), (20, 60)]
    assert all(spot.z_m == pytest.approx(1) for spot in low_spots(ramp, notched))


def test_a_hollow_outside_the_area_is_not_its_own():
    hollows = [s for s in low_spots(bowl(), [(0, 0), (3, 0), (0, 3)]) if s.kind == "hollow"]
    assert hollows == []


def test_what_a_hand_level_cannot_tell_is_no_hollow():
    shallow = levels((0, 0, 0.009), (10, 0, 0.009), (10, 10, 0.009), (0, 10, 0.009), (5, 5, 0))
    assert low_spots(shallow, SQUARE) == []


@pytest.mark.parametrize(
    "rows", [(), ((0, 0, 1),), ((0, 0, 1), (5, 5, 2)), ((0, 0, 1), (1, 1, 2), (2, 2, 3))]
)
def test_without_a_triangle_nothing_is_said(rows):
    taken = levels(*rows)
    assert low_spots(taken, SQUARE) == []
    assert contours(taken, 0.1) == []
    assert slope_pct(taken, SQUARE) == 0
    assert describe_area(taken, SQUARE) is None


def test_slope_is_that_of_the_steepest_triangle():
    # by hand: z = 0.03 x + 0.04 y climbs by 5 % whichever way the square is cut
    plane = levels((0, 0, 0), (10, 0, 0.3), (10, 10, 0.7), (0, 10, 0.4))
    assert slope_pct(plane, SQUARE) == pytest.approx(5)
    # and the bowl falls by 1 m over the 5 m from the middle of a side
    assert slope_pct(bowl(), SQUARE) == pytest.approx(20)


def test_an_area_is_described_as_far_as_levels_reach():
    found = describe_area(bowl(), [(5, 0), (15, 0), (15, 10), (5, 10)])
    assert found.share == pytest.approx(0.5)
    assert (found.lowest_m, found.highest_m) == (pytest.approx(0), pytest.approx(1))
    assert found.range_m == pytest.approx(1)


def test_contours_of_a_ramp_are_straight():
    ramp = levels((0, 0, 0), (10, 0, 0.5), (10, 10, 0.5), (0, 10, 0))
    found = contours(ramp, 0.1)
    assert [round(one.z_m, 6) for one in found] == [0.1, 0.2, 0.3, 0.4, 0.5]
    for one in found:
        (line,) = one.lines
        assert {round(x, 6) for x, _ in line} == {round(one.z_m * 20, 6)}
        assert math.dist(line[0], line[-1]) == pytest.approx(10)


def test_contours_of_a_bowl_close():
    (one,) = contours(bowl(), 0.5)[:1]
    (ring,) = one.lines
    assert ring[0] == ring[-1]
    assert one.z_m == 0.5


def test_contours_lie_on_the_surface_that_scipy_interpolates():
    chance = random.Random(4)
    rows = [(chance.uniform(0, 40), chance.uniform(0, 30), chance.uniform(-1, 2)) for _ in range(60)]
    surface = LinearNDInterpolator([(x, y) for x, y, _ in rows], [z for _, _, z in rows])
    for one in contours(levels(*rows), 0.25):
        for line in one.lines:
            heights = surface(np.array(line))
            # on the very rim scipy may see a point as outside
            assert np.nanmax(np.abs(heights - one.z_m), initial=0) < 1e-6


@pytest.mark.parametrize("step_m", [0, -1, math.nan, 1e-6])
def test_a_step_that_cannot_be_is_refused(step_m):
    with pytest.raises(ValueError, match="contours"):
        contours(bowl(), step_m)


# By hand: the round step (1, 2 or 5 times a power of ten) above an eighth of the range
@pytest.mark.parametrize(("range_m", "step_m"), [(0.8, 0.1), (1, 0.2), (3, 0.5), (7.9, 1), (0, 0.01)])
def test_a_round_step_between_contours(range_m, step_m):
    assert step_for(levels((0, 0, 0), (1, 0, range_m))) == pytest.approx(step_m)


def test_four_hundred_levels_are_described_soon():
    chance = random.Random(1)
    rows = [(chance.uniform(0, 60), chance.uniform(0, 60), chance.uniform(0, 2)) for _ in range(400)]
    began = time.perf_counter()
    describe_area(levels(*rows), [(5, 5), (55, 5), (55, 55), (5, 55)])
    assert time.perf_counter() - began < 3
