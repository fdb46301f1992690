import math
import time

import numpy as np
import pytest

from hydraulics.coverage import WettingHead, wetting
from hydraulics.uniformity import uniformity

SQUARE = [(-10, -10), (10, -10), (10, 10), (-10, 10)]


def test_uniformity_of_eight_cans_by_hand():
    # Practices of Irrigation & On-farm Water Management, eq. 4.6 and 4.7, worked by hand
    found = uniformity([8, 9, 10, 11, 12, 10, 9, 11])
    assert (found.mean, found.cu_pct, found.dulq_pct) == pytest.approx((10, 90.0, 85.0))


@pytest.mark.parametrize(("cans", "lowest"), [([1, 2, 3, 4, 5], 1.0), ([1, 2, 3, 4, 5, 6], 1.5), ([4], 4.0)])
def test_the_low_quarter_is_the_nearest_whole_number_of_cans(cans, lowest):
    assert uniformity(cans).dulq_pct == pytest.approx(100 * lowest / np.mean(cans))


def test_nothing_falling_has_no_uniformity():
    found = uniformity([0, 0, 0])
    assert (found.cu_pct, found.dulq_pct, found.scheduling_coefficient) == (None, None, None)


@pytest.mark.parametrize("profile", ["uniform", "triangular"])
@pytest.mark.parametrize("sweep", [90, 180, 270, 360])
def test_all_the_water_of_a_head_lands_in_its_sector(profile, sweep):
    head = WettingHead((0.1, 0.2), 12.0, 6.0, 45, sweep, profile)
    found = wetting([SQUARE], [head], 0.1)
    assert found.caught_lpm == pytest.approx(12.0, rel=0.01)
    assert found.reached_m2() == pytest.approx(math.pi * 36 * sweep / 360, rel=0.01)


def test_a_uniform_head_gives_flow_over_sector():
    found = wetting([SQUARE], [WettingHead((0, 0), 12.0, 6.0, profile="uniform")], 0.25)
    wet = found.mm_per_hour[found.heads_seen > 0]
    assert wet == pytest.approx(60 * 12 / (math.pi * 36))


def test_an_arc_runs_clockwise_from_north():
    found = wetting([SQUARE], [WettingHead((0, 0), 6.0, 5.0, 0, 90)])
    wet = found.centres[found.heads_seen > 0]
    assert (wet > 0).all()  # the north-east quarter: x and y above zero
    found = wetting([SQUARE], [WettingHead((0, 0), 6.0, 5.0, 90, 180)])
    assert (found.centres[found.heads_seen > 0][:, 1] < 0).all()  # the south half


def test_a_throw_that_varies_with_bearing_keeps_to_its_reaches():
    bearings = np.arange(720) / 2
    # a head in the middle of a square of 10 m: its reach is the square itself
    reaches = 5 / np.maximum(np.abs(np.sin(np.radians(bearings))), np.abs(np.cos(np.radians(bearings))))
    head = WettingHead((0, 0), 10.0, 0.0, profile="uniform", reaches_m=tuple(reaches))
    found = wetting([SQUARE], [head], 0.25)
    assert found.reached_m2() == pytest.approx(100, rel=0.01)
    assert found.caught_lpm == pytest.approx(10, rel=0.01)
    assert (np.abs(found.centres[found.heads_seen > 0]) < 5.01).all()


def test_water_beyond_the_edge_is_lost():
    found = wetting([SQUARE], [WettingHead((10, 0), 12.0, 6.0, 0, 360)], 0.1)
    assert found.caught_lpm == pytest.approx(6.0, rel=0.02)


def test_a_hole_takes_no_part():
    hole = [(-2, -2), (2, -2), (2, 2), (-2, 2)]
    found = wetting([SQUARE, hole], [WettingHead((0, 0), 12.0, 6.0)])
    assert found.area_m2 == pytest.approx(400 - 16)
    assert not ((np.abs(found.centres) < 2).all(axis=1)).any()


def test_the_largest_dry_spot_is_one_patch():
    found = wetting([[(0, 0), (20, 0), (20, 4), (0, 4)]], [WettingHead((9, 2), 10, 6.0)], 0.1)
    # dry left and right of the circle: the larger patch is the right one
    assert found.dry_spot_m2 < found.area_m2 - found.reached_m2()
    assert found.dry_spot_m2 == pytest.approx(5.0 * 4 + _segment_beside(6.0, 2.0), rel=0.05)


def _segment_beside(radius, half_width):
    """Area between a circle and the upright line at its rim, over a strip through its middle."""
    angle = math.asin(half_width / radius)
    under_arc = radius**2 * (angle + math.sin(angle) * math.cos(angle))
    return 2 * half_width * radius - under_arc


def test_every_spot_of_the_rectangle_of_site_s1_sees_two_heads():
    # worked test site of the trade, common practice, no source: 15 heads of 6.0 m on a 6 m grid
    heads = []
    for i in range(5):
        for j in range(3):
            start, sweep = _arc_on_rectangle(i, j)
            heads.append(WettingHead((6.0 * i, 6.0 * j), 6.0 * sweep / 360, 6.0, start, sweep, "uniform"))
    assert sum(head.flow_lpm for head in heads) == pytest.approx(48)
    found = wetting([[(0, 0), (24, 0), (24, 12), (0, 12)]], heads, 0.5)
    assert found.area_m2 == pytest.approx(288)
    assert found.heads_seen.min() >= 2
    assert found.mean_mm_per_hour == pytest.approx(10.0, rel=0.02)
    assert found.caught_lpm == pytest.approx(48, rel=0.02)


def _arc_on_rectangle(i, j):
    if j == 1:
        return (0, 180) if i == 0 else (180, 180) if i == 4 else (0, 360)
    if i == 0:
        return (0, 90) if j == 0 else (90, 90)
    if i == 4:
        return (270, 90) if j == 0 else (180, 90)
    return (270, 180) if j == 0 else (90, 180)


@pytest.mark.parametrize("varies", [False, True])
def test_a_thousand_square_metres_with_forty_heads_is_quick(varies):
    """Goal 20 ms with fixed arcs and 50 ms by bearing; ten times that fails, as machines differ."""
    ring = [(0, 0), (40, 0), (40, 25), (0, 25)]
    reaches = tuple([7.0] * 360) if varies else ()
    heads = [
        WettingHead((5.0 * (i % 8) + 2, 5.0 * (i // 8) + 2), 8.0, 7.0, 0, 180, reaches_m=reaches)
        for i in range(40)
    ]
    times = []
    for _ in range(5):
        start = time.perf_counter()
        wetting([ring], heads, 0.25)
        times.append(time.perf_counter() - start)
    print(f"\n40 heads over 1,000 m2, by bearing {varies}: {1000 * sorted(times)[2]:.1f} ms")
    assert sorted(times)[2] < (0.5 if varies else 0.2)


def test_a_lawn_a_few_centimetres_wider_than_planned_is_not_dry_all_along():
    """Half circles stand 0.06 m within the north side; the side of an arc wets a hand beside it.

    Common practice, no source: 0.10 m. At 0.30 m the strip is dry, 0.20 m of it beyond the hand.
    """
    heads = [WettingHead((x, 6.0), 3.0, 6.0, 90.0, 180.0) for x in range(0, 25, 3)]
    near, far = (
        wetting([[(0, 4), (24, 4), (24, 6 + wider), (0, 6 + wider)]], heads, 0.02) for wider in (0.06, 0.30)
    )
    assert near.dry_m2 == 0
    assert near.dry_spots == ()
    assert near.reached_m2() == pytest.approx(48, rel=0.01)
    assert far.dry_m2 == pytest.approx(24 * 0.20, rel=0.02)
