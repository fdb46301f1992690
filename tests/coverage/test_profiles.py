"""How water falls off from the head: shapes, measured rows, and none of it lost or made."""

import math

import numpy as np
import pytest
from pydantic import ValidationError

from hydraulics.catalogue import HeadPart
from hydraulics.coverage import WettingHead, wetting
from hydraulics.coverage_profile import relative_depth, sector_weight

SQUARE = [(-10, -10), (10, -10), (10, 10), (-10, 10)]
HUMPED = ((0.0, 0.6), (0.5, 1.0), (0.8, 0.7), (1.0, 0.0))


@pytest.mark.parametrize("rows", [((0.0, 1.0), (1.0, 0.0)), HUMPED, ((0.0, 3.0), (0.1, 0.0), (1.0, 2.0))])
def test_the_weight_of_measured_rows_is_their_integral(rows):
    share = (np.arange(200_000) + 0.5) / 200_000
    by_hand = 2 * np.mean(np.interp(share, *zip(*rows, strict=True)) * share)
    assert sector_weight("uniform", rows) == pytest.approx(by_hand, rel=1e-6)


def test_rows_that_fall_straight_are_the_triangle():
    share = np.linspace(0, 1, 11)
    rows = ((0.0, 1.0), (1.0, 0.0))
    assert sector_weight("uniform", rows) == pytest.approx(sector_weight("triangular"))
    assert relative_depth(share, "uniform", rows) == pytest.approx(relative_depth(share, "triangular"))


@pytest.mark.parametrize("sweep", [90, 200, 360])
def test_all_the_water_of_a_measured_profile_lands(sweep):
    head = WettingHead((0.1, 0.2), 12.0, 6.0, 45, sweep, profile_rows=HUMPED)
    found = wetting([SQUARE], [head], 0.1)
    assert found.caught_lpm == pytest.approx(12.0, rel=0.01)


def test_the_most_falls_where_the_rows_say():
    found = wetting([SQUARE], [WettingHead((0, 0), 12.0, 8.0, profile_rows=HUMPED)], 0.1)
    distance = np.hypot(*found.centres.T)
    ring = [found.mm_per_hour[(distance > r - 0.1) & (distance < r + 0.1)].mean() for r in (0.4, 4.0, 6.4)]
    assert ring[1] / ring[0] == pytest.approx(1.0 / 0.64, rel=0.02)
    assert ring[2] / ring[1] == pytest.approx(0.7, rel=0.02)


def test_a_throw_given_at_uneven_bearings_keeps_all_the_water():
    bearings = (10.0, 30.0, 31.0, 100.0, 250.0, 359.0)
    reaches = (4.0, 8.0, 2.0, 6.0, 9.0, 3.0)
    head = WettingHead((0, 0), 10.0, 0.0, profile="uniform", reaches_m=reaches, bearings_deg=bearings)
    found = wetting([SQUARE], [head], 0.05)
    assert found.caught_lpm == pytest.approx(10.0, rel=0.005)
    x, y = found.centres[found.heads_seen > 0].T
    at = np.degrees(np.arctan2(x, y)) % 360
    throw = np.interp(at, bearings, reaches, period=360)
    assert (np.hypot(x, y) <= throw + 1e-6).all()


def head_part(**changes):
    sheet = {
        "code": "h", "label": "Head", "family": "spray", "pattern": "fixed_arc",
        "min_kpa": 100, "max_kpa": 300,
        "rows": [{"pressure_kpa": 200, "flow_lpm": 6, "throw_m": 4}],
    }  # fmt: skip
    return HeadPart.model_validate(sheet | changes)


def test_a_part_without_profile_rows_is_as_before():
    assert head_part().profile_rows == ()
    falling = [{"distance_share": 0, "depth": 1}, {"distance_share": 1, "depth": 0}]
    assert len(head_part(profile_rows=falling).profile_rows) == 2


@pytest.mark.parametrize(
    "rows",
    [
        [(0.0, 1)],
        [(0.1, 1), (1.0, 0)],
        [(0.0, 1), (0.9, 0)],
        [(0.0, 1), (0.5, 1), (0.5, 0), (1.0, 0)],
        [(0.0, 0), (1.0, 0)],
        [(0.0, -1), (1.0, 1)],
        [(0.0, math.nan), (1.0, 1)],
    ],
)
def test_profile_rows_that_make_no_profile_are_refused(rows):
    typed = [{"distance_share": share, "depth": depth} for share, depth in rows]
    with pytest.raises(ValidationError):
        head_part(profile_rows=typed)
