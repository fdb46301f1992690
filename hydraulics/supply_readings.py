"""What may be read at a supply, and which readings cannot all be true.

``above_m`` is the height of a reading's tap above the tap where the static was read. Every
reading is brought to the level of that tap, by 9.80665 kPa per metre, before it is compared.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from hydraulics.errors import SupplyContradiction
from hydraulics.limits import DEFAULT_LIMITS, Limits
from hydraulics.units import KPA_PER_M, bucket_flow_lpm


@dataclass(frozen=True)
class GaugeReading:
    """Residual pressure at the tap while that flow runs."""

    flow_lpm: float
    residual_kpa: float
    tap: str = ""
    above_m: float = 0.0

    @property
    def level_kpa(self) -> float:
        """The residual as it would be at the level of the static reading's tap."""
        return self.residual_kpa + KPA_PER_M * self.above_m


@dataclass(frozen=True)
class BucketReading:
    """An open tap that fills a bucket: no pressure is left at the outlet."""

    litres: float
    seconds: float
    tap: str = ""
    above_m: float = 0.0

    @property
    def flow_lpm(self) -> float:
        return bucket_flow_lpm(self.litres, self.seconds)

    @property
    def level_kpa(self) -> float:
        """What is left at the level of the static reading's tap while that tap runs open."""
        return KPA_PER_M * self.above_m


@dataclass(frozen=True)
class StaticReading:
    """Pressure at a tap while nothing runs, beside the one that every visit takes."""

    pressure_kpa: float
    tap: str = ""
    above_m: float = 0.0
    flow_lpm: float = 0.0

    @property
    def level_kpa(self) -> float:
        return self.pressure_kpa + KPA_PER_M * self.above_m


Reading = GaugeReading | BucketReading | StaticReading


def refuse_bad_readings(readings: Sequence[Reading]) -> None:
    """Raises SupplyContradiction on figures that no reading can have."""
    for reading in readings:
        if not math.isfinite(reading.above_m):
            raise SupplyContradiction("the height of a tap must be a number of metres")
        if isinstance(reading, StaticReading) and not 0 < reading.pressure_kpa < math.inf:
            raise SupplyContradiction("the static pressure must be above zero; read it with every tap shut")
        if isinstance(reading, GaugeReading) and not 0 < reading.flow_lpm < math.inf:
            raise SupplyContradiction("a gauge reading needs the flow that ran with it, above zero")
        if isinstance(reading, GaugeReading) and not 0 <= reading.residual_kpa < math.inf:
            raise SupplyContradiction("a gauge reading needs the residual pressure, zero or more")


def refuse_contradictions(
    static_kpa: float, gauges: Sequence[GaugeReading], limits: Limits = DEFAULT_LIMITS
) -> None:
    """Raises SupplyContradiction on a residual above the static, or one that rises with the flow.

    ``static_kpa`` is at the level of the static reading's tap.
    """
    for gauge in gauges:
        if gauge.level_kpa >= static_kpa:
            raise SupplyContradiction(
                f"the residual {gauge.residual_kpa:.0f} kPa at {gauge.flow_lpm:.1f} L/min{_raised(gauge)} is "
                f"not below the static {static_kpa:.0f} kPa; read both again at the same tap"
            )
    ordered = sorted(gauges, key=lambda g: g.flow_lpm)
    for less, more in pairwise(ordered):
        rises = more.level_kpa > less.level_kpa + limits.gauge_tolerance_kpa
        if rises and more.flow_lpm > less.flow_lpm:
            raise SupplyContradiction(
                f"the residual rises from {less.level_kpa:.0f} to {more.level_kpa:.0f} kPa while the "
                f"flow rises from {less.flow_lpm:.1f} to {more.flow_lpm:.1f} L/min; repeat the two readings"
            )


def _raised(gauge: GaugeReading) -> str:
    if gauge.above_m == 0:
        return ""
    return f" ({gauge.level_kpa:.0f} kPa at the level of the static reading, {gauge.above_m:+.1f} m)"


def best_bucket(buckets: Sequence[BucketReading], static_kpa: float) -> tuple[float, float] | None:
    """Flow and pressure left, at the level of the static reading, of the tap that shows most.

    Runs at one tap are averaged; each tap is a lower bound, so that the best one counts: the
    one that asks for least loss at its flow. None without a bucket.
    """
    taps: dict[tuple[str, float], list[float]] = {}
    for bucket in buckets:
        taps.setdefault((bucket.tap, bucket.level_kpa), []).append(bucket.flow_lpm)
    means = [(sum(flows) / len(flows), kpa) for (_, kpa), flows in taps.items()]
    return min(means, key=lambda mean: (static_kpa - mean[1]) / mean[0] ** 1.852, default=None)


def best_bucket_lpm(buckets: Sequence[BucketReading]) -> float | None:
    """Mean of the runs at each tap, and of the taps the most: each is a lower bound."""
    runs: dict[tuple[str, float], list[float]] = {}
    for bucket in buckets:
        runs.setdefault((bucket.tap, bucket.above_m), []).append(bucket.flow_lpm)
    return max((sum(flows) / len(flows) for flows in runs.values()), default=None)
