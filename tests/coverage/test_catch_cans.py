"""Catch cans, as an audit on the lawn sets them out."""

import numpy as np
import pytest

from hydraulics.uniformity import can_mm_per_hour, uniformity

MM_PER_INCH, CM2_PER_IN2 = 25.4, 6.4516


def test_eight_cans_worked_by_hand():
    # Practices of Irrigation & On-farm Water Management, eq. 4.6 (CU) and 4.7 (DUlq): mean 10,
    # deviations 2+1+0+1+2+0+1+1 = 8, so 100 (1 - 8/80); lowest two of eight (8, 9) mean 8.5
    found = uniformity([8, 9, 10, 11, 12, 10, 9, 11])
    assert (found.mean, found.cu_pct, found.dulq_pct) == pytest.approx((10.0, 90.0, 85.0))


def test_one_millilitre_a_minute_on_a_square_inch():
    # University of Maryland irrigation course, 4.7: in/h = 3.66 mL/(min in2); exact 3.66142
    found = can_mm_per_hour(1.0, 1.0, CM2_PER_IN2) / MM_PER_INCH
    assert found == pytest.approx(3.66, abs=0.005)
    assert found == pytest.approx(3.66142, rel=1e-5)


@pytest.mark.parametrize(
    ("cans", "taken"),
    # where a quarter is no whole number of cans the nearest whole number counts, halves upwards
    [(4, 1), (5, 1), (6, 2), (7, 2), (8, 2), (9, 2), (10, 3), (11, 3), (13, 3), (14, 4)],
)
def test_the_low_quarter_takes_the_nearest_whole_number_of_cans(cans, taken):
    depths = np.arange(1.0, cans + 1)
    assert uniformity(depths).dulq_pct == pytest.approx(100 * depths[:taken].mean() / depths.mean())


def test_the_driest_twentieth_and_the_scheduling_coefficient():
    depths = [2.0, *[10.0] * 19]  # 20 cans: the driest 5 % is one of them
    found = uniformity(depths)
    assert found.driest == pytest.approx(2.0)
    assert found.scheduling_coefficient == pytest.approx(9.6 / 2.0)
    assert uniformity([0.0, *[10.0] * 19]).scheduling_coefficient is None
