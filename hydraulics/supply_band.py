"""How far the fitted supply curve may be wrong, carried on from what gauge, bucket and dial are good for.

The tolerances are taken as two standard deviations, so that the band is one of about 95 %.
With x = q**1.852 the curve is p(x) = s - k x, s the mean of the static readings and
k = sum x_i (s - p_i) / sum x_i**2, which is linear in every reading:
var p(x) = var s (1 - x sum x_i / sum x_i**2)**2 + (x / sum x_i**2)**2 sum x_i**2 var p_i.
Where the readings scatter more than their tolerances allow, the band widens by that ratio.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hydraulics.friction import FLOW_EXPONENT
from hydraulics.limits import Limits


@dataclass(frozen=True)
class CurveBand:
    """What ``half_width_kpa`` needs: sums over the readings, and tolerances in kPa."""

    static_tolerance_kpa: float
    sum_x: float
    sum_xx: float
    sum_xx_tolerance: float  # of (x_i * tolerance_i)**2
    widening: float = 1.0

    def half_width_kpa(self, flow_lpm: float) -> float:
        """The curve at that flow is right to within this, at about 95 %."""
        x = max(flow_lpm, 0.0) ** FLOW_EXPONENT
        of_static = self.static_tolerance_kpa * (1 - x * self.sum_x / self.sum_xx)
        of_readings = x / self.sum_xx * math.sqrt(self.sum_xx_tolerance)
        return self.widening * math.hypot(of_static, of_readings)


def curve_band(
    static_count: int,
    points: Sequence[tuple[float, float]],
    misses: Sequence[float],
    k: float,
    limits: Limits,
) -> CurveBand:
    """``points`` are (flow, pressure) of the readings that fixed k, ``misses`` reading minus curve."""
    xs = [q**FLOW_EXPONENT for q, _ in points]
    # a flow read too high by 5 % moves its point down the curve by 1.852 * 5 % of its drop
    drops = [FLOW_EXPONENT * k * x * limits.flow_tolerance_share for x in xs]
    tolerances = [math.hypot(limits.gauge_tolerance_kpa, drop) for drop in drops]
    freedom = len(points) - 1
    scatter = math.sqrt(
        sum((2 * miss / t) ** 2 for miss, t in zip(misses, tolerances, strict=True)) / max(freedom, 1)
    )
    return CurveBand(
        static_tolerance_kpa=limits.gauge_tolerance_kpa / math.sqrt(static_count),
        sum_x=sum(xs),
        sum_xx=sum(x * x for x in xs),
        sum_xx_tolerance=sum((x * t) ** 2 for x, t in zip(xs, tolerances, strict=True)),
        widening=max(scatter, 1.0) if freedom > 0 else 1.0,
    )
