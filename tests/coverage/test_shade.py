"""A building stops water: what it hides stays dry, and what it keeps back is counted to it."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from hydraulics.coverage import WettingHead, wetting
from hydraulics.coverage_beyond import Ground, water_beyond
from hydraulics.coverage_shade import Walls, near_walls, shaded_by

SQUARE = [(-10, -10), (10, -10), (10, 10), (-10, 10)]


def walls(*rings):
    sides = [(*a, *b) for ring in rings for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]
    owner = [place for place, ring in enumerate(rings) for _ in ring]
    return Walls(np.array(sides, dtype=float), np.array(owner, dtype=np.int16))


HOUSE = [(2, -1), (4, -1), (4, 1), (2, 1)]


def test_nothing_falls_behind_a_house():
    head = WettingHead((0, 0), 12.0, 8.0, profile="uniform")
    open_lawn = wetting([SQUARE], [head], 0.05)
    found = wetting([SQUARE], [head], 0.05, walls(HOUSE))
    x, y = found.centres[found.heads_seen > 0].T
    behind = (x > 2) & (np.abs(y) < x / 2)
    assert not behind.any()
    # the wedge between the two near corners, from the wall at x = 2 out to the throw of 8 m
    hidden_m2 = math.atan(0.5) * 64 - 2 * 1 / 2 * 2
    assert open_lawn.reached_m2() - found.reached_m2() == pytest.approx(hidden_m2, rel=0.01)


def test_what_a_house_keeps_back_is_counted_to_it_and_no_water_is_lost():
    meant = shapely.Polygon([(-10, -10), (2, -10), (2, 10), (-10, 10)])
    ground = Ground(meant, {"house": shapely.Polygon(HOUSE)}, walls(HOUSE), ("house",))
    head = WettingHead((0, 0), 12.0, 8.0, profile="uniform")
    beyond = water_beyond([head], ground, 0.05)
    wedge = 2 * math.atan(0.5) / 2 * 64 - 2
    assert beyond["house"] == pytest.approx(12 * wedge / (math.pi * 64), rel=0.01)
    caught = wetting([list(meant.exterior.coords)[:-1]], [head], 0.05, walls(HOUSE)).caught_lpm
    assert caught + sum(beyond.values()) == pytest.approx(12.0, rel=0.005)


def test_the_nearer_of_two_houses_keeps_the_water():
    far = [(5, -3), (6, -3), (6, 3), (5, 3)]
    ground = Ground(shapely.Polygon(), {}, walls(far, HOUSE), ("far", "near"))
    found = water_beyond([WettingHead((0, 0), 12.0, 8.0, 80, 20, profile="uniform")], ground, 0.02)
    assert set(found) == {"near", ""}


def test_a_head_at_the_wall_still_waters_its_own_side():
    house = [(-5, -4), (5, -4), (5, 0), (-5, 0)]
    found = wetting([SQUARE], [WettingHead((0, 0), 12.0, 6.0, 270, 180)], 0.1, walls(house))
    assert found.caught_lpm == pytest.approx(12.0, rel=0.01)


corner = st.tuples(st.floats(-9, 9), st.floats(-9, 9))


@settings(max_examples=150, deadline=None)
@given(corner, corner, corner, st.lists(corner, min_size=5, max_size=5))
def test_a_place_is_hidden_where_a_line_to_it_meets_a_wall(a, b, c, places):
    """Against shapely, which is asked whether the line of sight and the triangle share a length."""
    triangle = shapely.Polygon([a, b, c])
    if triangle.area < 0.5 or triangle.distance(shapely.Point(0, 0)) < 0.05:
        return
    near = near_walls(walls([a, b, c]), (0.0, 0.0), 100.0)
    for place in places:
        sight = shapely.LineString([(0, 0), place])
        meets = sight.intersection(triangle).length
        if meets < 0.01 and sight.distance(triangle) < 0.01:
            continue  # it grazes a corner: either answer may come
        hidden = shaded_by(near, np.array([place[0]]), np.array([place[1]]))[0] >= 0
        assert hidden == (meets > 0)
