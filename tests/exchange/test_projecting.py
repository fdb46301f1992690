"""Longitude and latitude to metres, against tables and an independent formula."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from design.exchange.projecting import FLATTENING, SEMI_MAJOR_M, TangentPlane, metres_per_degree

# Length of a degree of latitude and of longitude on WGS 84 [km], as printed in navigation and
# geodesy tables; copied from memory of such a table, three decimals.
LENGTHS_KM = {
    0: (110.574, 111.320), 15: (110.649, 107.550), 30: (110.852, 96.486),
    45: (111.132, 78.847), 60: (111.412, 55.800), 75: (111.618, 28.902),
}  # fmt: skip


@pytest.mark.parametrize(("latitude", "lengths_km"), LENGTHS_KM.items())
def test_the_length_of_a_degree_is_that_of_the_table(latitude, lengths_km):
    east_m, north_m = metres_per_degree(latitude)
    assert north_m / 1000 == pytest.approx(lengths_km[0], abs=0.0015)
    assert east_m / 1000 == pytest.approx(lengths_km[1], abs=0.0015)


def geodesic_m(one, two, flattening=FLATTENING):
    """T. Vincenty, Direct and inverse solutions of geodesics, Survey Review 23 (1975), 88-93."""
    semi_minor = SEMI_MAJOR_M * (1 - flattening)
    u1, u2 = (math.atan((1 - flattening) * math.tan(math.radians(p[1]))) for p in (one, two))
    difference = wanted = math.radians(two[0] - one[0])
    for _ in range(100):
        a = math.cos(u2) * math.sin(difference)
        b = math.cos(u1) * math.sin(u2) - math.sin(u1) * math.cos(u2) * math.cos(difference)
        sin_sigma = math.hypot(a, b)
        if sin_sigma == 0:
            return 0.0
        cos_sigma = math.sin(u1) * math.sin(u2) + math.cos(u1) * math.cos(u2) * math.cos(difference)
        sigma = math.atan2(sin_sigma, cos_sigma)
        sin_alpha = math.cos(u1) * math.cos(u2) * math.sin(difference) / sin_sigma
        cos2 = 1 - sin_alpha**2
        mid = cos_sigma - 2 * math.sin(u1) * math.sin(u2) / cos2 if cos2 else 0.0
        c = flattening / 16 * cos2 * (4 + flattening * (4 - 3 * cos2))
        inner = sigma + c * sin_sigma * (mid + c * cos_sigma * (2 * mid**2 - 1))
        before, difference = difference, wanted + (1 - c) * flattening * sin_alpha * inner
        if abs(difference - before) < 1e-13:
            break
    square = cos2 * (SEMI_MAJOR_M**2 - semi_minor**2) / semi_minor**2
    big_a = 1 + square / 16384 * (4096 + square * (-768 + square * (320 - 175 * square)))
    big_b = square / 1024 * (256 + square * (-128 + square * (74 - 47 * square)))
    last = big_b / 6 * mid * (4 * sin_sigma**2 - 3) * (4 * mid**2 - 3)
    delta = big_b * sin_sigma * (mid + big_b / 4 * (cos_sigma * (2 * mid**2 - 1) - last))
    return semi_minor * big_a * (sigma - delta)


def test_the_independent_formula_gives_its_published_example():
    """Flinders Peak to Buninyong on GRS 80: 54 972.271 m (ICSM, GDA technical manual, chapter 4)."""
    flinders = (144 + 25 / 60 + 29.52440 / 3600, -(37 + 57 / 60 + 3.72030 / 3600))
    buninyong = (143 + 55 / 60 + 35.38390 / 3600, -(37 + 39 / 60 + 10.15610 / 3600))
    assert geodesic_m(flinders, buninyong, 1 / 298.257222101) == pytest.approx(54_972.271, abs=0.001)


def worst_error_m(latitude, reach_m):
    """The largest difference in length from the origin, and between two far points."""
    plane = TangentPlane((11.0, latitude))
    corners = [(x * reach_m, y * reach_m) for x in (-1, 0, 1) for y in (-1, 0, 1)]
    return max(
        abs(geodesic_m(plane.degrees(a), plane.degrees(b)) - math.dist(a, b))
        for a in corners
        for b in corners
        if a != b
    )


def test_the_error_is_what_the_module_says():
    origin = TangentPlane((11.0, 60.0))
    far = abs(geodesic_m((11.0, 60.0), origin.degrees((500, 500))) - math.hypot(500, 500))
    assert far < 0.07
    assert worst_error_m(60, 50) < 0.003
    assert worst_error_m(45, 50) < 0.003


@pytest.mark.parametrize("latitude", [-60, -35, 0, 48, 60])
def test_over_500_metres_a_length_is_right_to_a_decimetre_and_a_half(latitude):
    assert worst_error_m(latitude, 500) < 0.14


@given(
    st.floats(-180, 180), st.floats(-84, 84), st.floats(-5000, 5000), st.floats(-5000, 5000)
)  # fmt: skip
def test_there_and_back(longitude, latitude, x, y):
    plane = TangentPlane((longitude, latitude))
    back = plane.metres(plane.degrees((x, y)))
    assert math.dist(back, (x, y)) < 1e-4


def test_across_the_date_line():
    east_m, _ = metres_per_degree(0)
    x, _ = TangentPlane((179.999, 0)).metres((-179.999, 0))
    assert x == pytest.approx(0.002 * east_m)
