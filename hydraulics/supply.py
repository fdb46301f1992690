"""The supply curve from readings at the tap, and the flow that a design may count on.

p(q) = static - k q**1.852 at the connection. The static reading anchors the curve, as in
NFPA 291; k is the least-squares value over the flowing readings. Readings at a tap are
taken downstream of the meter and of the service pipe, so their losses are in the curve
already and are never taken off again.
"""

import math
from dataclasses import dataclass
from typing import Literal

from hydraulics.errors import SupplyContradiction
from hydraulics.friction import FLOW_EXPONENT, flow_at_velocity_lpm
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.units import KPA_PER_M, bucket_flow_lpm

Confidence = Literal["measured", "cautious", "provisional"]
# common practice, no source: without a flowing reading, count on this share of the static
PROVISIONAL_SHARE = 0.70
# common practice, no source: the smallest service pipe, where nothing is known of it
SMALLEST_SERVICE_BORE_MM = 16.0
# common practice, no source: half a division of a usual gauge
GAUGE_TOLERANCE_KPA = 5.0
# common practice, no source: what a bucket and a watch are good for
BUCKET_TOLERANCE = 0.05


@dataclass(frozen=True)
class GaugeReading:
    """Residual pressure at the tap while that flow runs."""

    flow_lpm: float
    residual_kpa: float
    tap: str = ""


@dataclass(frozen=True)
class BucketReading:
    """An open tap that fills a bucket: no pressure is left at the outlet."""

    litres: float
    seconds: float
    tap: str = ""

    @property
    def flow_lpm(self) -> float:
        return bucket_flow_lpm(self.litres, self.seconds)


Reading = GaugeReading | BucketReading


@dataclass(frozen=True)
class SupplyCurve:
    """p(q) = static_kpa - loss_coefficient * q_lpm**1.852 at the connection.

    ``residuals_kpa`` is reading minus curve, in the order of the readings that fixed it;
    ``bucket_lpm`` is the best open-tap flow, none without a bucket test.
    """

    static_kpa: float
    loss_coefficient: float
    residuals_kpa: tuple[float, ...]
    confidence: Confidence
    bucket_lpm: float | None = None
    tested_lpm: float = 0.0

    def pressure_kpa(self, flow_lpm: float) -> float:
        return self.static_kpa - self.loss_coefficient * max(flow_lpm, 0.0) ** FLOW_EXPONENT

    def flow_lpm(self, pressure_kpa: float) -> float:
        """Flow at which that pressure is left; 0 where it never is."""
        spare = self.static_kpa - pressure_kpa
        return (spare / self.loss_coefficient) ** (1 / FLOW_EXPONENT) if spare > 0 else 0.0


@dataclass(frozen=True)
class SupplyCap:
    """One thing that caps the design flow; the smallest binds."""

    name: str  # curve, bucket_share, meter_share, service_velocity
    flow_lpm: float
    sentence: str
    source: str


@dataclass(frozen=True)
class DesignFlow:
    flow_lpm: float
    binding: str
    caps: tuple[SupplyCap, ...]


@dataclass(frozen=True)
class Upstream:
    """What the water passes before the tap; none where nobody knows."""

    meter_safe_max_lpm: float | None = None
    service_bore_mm: float | None = None


NOTHING_KNOWN = Upstream()


def fit_supply(
    static_kpa: float,
    readings: tuple[Reading, ...] = (),
    rise_m: float = 0.0,
    upstream: Upstream = NOTHING_KNOWN,
    limits: Limits = DEFAULT_LIMITS,
) -> SupplyCurve:
    """Curve at the connection from readings at a tap.

    ``rise_m`` is how far the connection lies above the tap (negative: below). With gauge
    readings the confidence is ``measured`` and a bucket is only a lower bound, as the tap
    itself chokes; with buckets alone the curve passes through zero residual at their flow,
    which is ``cautious``. With neither, 70 % of the static is taken to be left at the
    smaller of the meter's and the service pipe's share: ``provisional``.
    Raises SupplyContradiction where the readings cannot all be true.
    """
    gauges = tuple(r for r in readings if isinstance(r, GaugeReading))
    buckets = tuple(r for r in readings if isinstance(r, BucketReading))
    _refuse_contradictions(static_kpa, gauges)
    points, confidence = _curve_points(static_kpa, gauges, buckets, upstream, limits)
    k = _least_squares(static_kpa, points)
    residuals = tuple(p - (static_kpa - k * q**FLOW_EXPONENT) for q, p in points)
    bucket_lpm = best_bucket_lpm(buckets)
    if gauges and bucket_lpm is not None:
        _refuse_bucket_beyond_curve(bucket_lpm, static_kpa, k)
    at_connection = static_kpa - KPA_PER_M * rise_m - limits.supply_margin_kpa
    tested = max((r.flow_lpm for r in readings), default=0.0)
    return SupplyCurve(at_connection, k, residuals, confidence, bucket_lpm, tested)


def best_bucket_lpm(buckets: tuple[BucketReading, ...]) -> float | None:
    """Mean of the runs at each tap, and of the taps the best: each is a lower bound."""
    runs: dict[str, list[float]] = {}
    for bucket in buckets:
        runs.setdefault(bucket.tap, []).append(bucket.flow_lpm)
    return max((sum(flows) / len(flows) for flows in runs.values()), default=None)


def design_flow(
    curve: SupplyCurve, needed_kpa: float, upstream: Upstream = NOTHING_KNOWN, limits: Limits = DEFAULT_LIMITS
) -> DesignFlow:
    """The smallest of the caps on flow, all of them, and the name of the one that binds.

    ``needed_kpa`` is what the system needs at the connection.
    """
    caps = [_curve_cap(curve, needed_kpa)]
    if curve.bucket_lpm is not None:
        caps.append(_bucket_cap(curve.bucket_lpm, limits))
    if upstream.meter_safe_max_lpm is not None:
        caps.append(_meter_cap(upstream.meter_safe_max_lpm, limits))
    if upstream.service_bore_mm is not None:
        caps.append(_service_cap(upstream.service_bore_mm, limits))
    binding = min(caps, key=lambda cap: cap.flow_lpm)
    return DesignFlow(binding.flow_lpm, binding.name, tuple(caps))


def _refuse_contradictions(static_kpa: float, gauges: tuple[GaugeReading, ...]) -> None:
    if not 0 < static_kpa < math.inf:
        raise SupplyContradiction("the static pressure must be above zero; read it with every tap shut")
    for gauge in gauges:
        if not 0 < gauge.flow_lpm < math.inf:
            raise SupplyContradiction("a gauge reading needs the flow that ran with it, above zero")
        if not gauge.residual_kpa >= 0:
            raise SupplyContradiction("a gauge reading needs the residual pressure, zero or more")
        if gauge.residual_kpa >= static_kpa:
            raise SupplyContradiction(
                f"the residual {gauge.residual_kpa:.0f} kPa at {gauge.flow_lpm:.1f} L/min is not below the "
                f"static {static_kpa:.0f} kPa; read both again at the same tap"
            )
    for less, more in zip(ordered := sorted(gauges, key=lambda g: g.flow_lpm), ordered[1:], strict=False):
        if more.residual_kpa > less.residual_kpa + GAUGE_TOLERANCE_KPA:
            raise SupplyContradiction(
                f"the residual rises from {less.residual_kpa:.0f} to {more.residual_kpa:.0f} kPa while the "
                f"flow rises from {less.flow_lpm:.1f} to {more.flow_lpm:.1f} L/min; repeat the two readings"
            )


def _refuse_bucket_beyond_curve(bucket_lpm: float, static_kpa: float, k: float) -> None:
    most = (static_kpa / k) ** (1 / FLOW_EXPONENT)
    if bucket_lpm > most * (1 + BUCKET_TOLERANCE):
        raise SupplyContradiction(
            f"the bucket shows {bucket_lpm:.1f} L/min, yet by the gauge no more than {most:.1f} L/min can "
            "flow with no pressure left; repeat the gauge reading"
        )


def _curve_points(
    static_kpa: float,
    gauges: tuple[GaugeReading, ...],
    buckets: tuple[BucketReading, ...],
    upstream: Upstream,
    limits: Limits,
) -> tuple[tuple[tuple[float, float], ...], Confidence]:
    if gauges:
        return tuple((g.flow_lpm, g.residual_kpa) for g in gauges), "measured"
    best = best_bucket_lpm(buckets)
    if best is not None:
        return ((best, 0.0),), "cautious"
    return ((_assumed_flow_lpm(upstream, limits), PROVISIONAL_SHARE * static_kpa),), "provisional"


def _assumed_flow_lpm(upstream: Upstream, limits: Limits) -> float:
    bore = upstream.service_bore_mm or SMALLEST_SERVICE_BORE_MM
    flow = flow_at_velocity_lpm(limits.service_velocity_mps, bore)
    if upstream.meter_safe_max_lpm is not None:
        flow = min(flow, limits.meter_share * upstream.meter_safe_max_lpm)
    return flow


def _least_squares(static_kpa: float, points: tuple[tuple[float, float], ...]) -> float:
    """k that least misses p = static - k x, x = q**1.852, over the points."""
    xs = [q**FLOW_EXPONENT for q, _ in points]
    drops = [static_kpa - p for _, p in points]
    return sum(x * drop for x, drop in zip(xs, drops, strict=True)) / sum(x * x for x in xs)


def _curve_cap(curve: SupplyCurve, needed_kpa: float) -> SupplyCap:
    flow = curve.flow_lpm(needed_kpa)
    sentence = (
        f"The supply keeps the needed {needed_kpa:.0f} kPa at the connection up to {flow:.1f} L/min."
        if flow > 0
        else f"The supply, {curve.static_kpa:.0f} kPa at rest, never gives the needed {needed_kpa:.0f} kPa."
    )
    return SupplyCap("curve", flow, sentence, "NFPA 291, the available-flow formula turned into a curve")


def _bucket_cap(bucket_lpm: float, limits: Limits) -> SupplyCap:
    flow = limits.bucket_share * bucket_lpm
    sentence = (
        f"{limits.bucket_share:.0%} of the {bucket_lpm:.1f} L/min that the open tap gave is {flow:.1f} L/min."
    )
    return SupplyCap("bucket_share", flow, sentence, PRACTICE)


def _meter_cap(safe_max_lpm: float, limits: Limits) -> SupplyCap:
    flow = limits.meter_share * safe_max_lpm
    sentence = f"{limits.meter_share:.0%} of the meter's safe {safe_max_lpm:.1f} L/min is {flow:.1f} L/min."
    return SupplyCap("meter_share", flow, sentence, "from memory: three quarters of a meter's safe maximum")


def _service_cap(bore_mm: float, limits: Limits) -> SupplyCap:
    flow = flow_at_velocity_lpm(limits.service_velocity_mps, bore_mm)
    sentence = (
        f"The service pipe of {bore_mm:.1f} mm bore carries {flow:.1f} L/min "
        f"at {limits.service_velocity_mps:.1f} m/s."
    )
    return SupplyCap("service_velocity", flow, sentence, "from memory: 5 ft/s, rounded to 1.5 m/s")
