"""The supply curve from readings at taps, and the flow that a design may count on.

p(q) = static - k q**1.852 at the connection. The static readings anchor the curve, as in
NFPA 291; k is the least-squares value over the flowing readings. Readings at a tap are
taken downstream of the meter and of the service pipe, so their losses are in the curve
already and are never taken off again.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from hydraulics.errors import SupplyContradiction
from hydraulics.friction import FLOW_EXPONENT, flow_at_velocity_lpm
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.supply_band import CurveBand, curve_band
from hydraulics.supply_readings import (
    BucketReading,
    GaugeReading,
    Reading,
    StaticReading,
    best_bucket,
    best_bucket_lpm,
    refuse_bad_readings,
    refuse_contradictions,
)
from hydraulics.units import KPA_PER_M

__all__ = [
    "BucketReading", "DesignFlow", "GaugeReading", "PlacedReading", "Reading", "StaticReading", "SupplyCap",
    "SupplyCurve", "Upstream", "best_bucket_lpm", "design_flow", "fit_supply",
]  # fmt: skip

Confidence = Literal["measured", "cautious", "provisional"]


@dataclass(frozen=True)
class PlacedReading:
    """One reading at the level of the connection, and by how much it misses the curve.

    ``miss_kpa`` is reading minus curve before the season's margin; none for a bucket beside
    gauge readings, which is a lower bound and lies under the curve.
    """

    kind: Literal["static", "gauge", "bucket"]
    tap: str
    flow_lpm: float
    kpa: float
    miss_kpa: float | None


@dataclass(frozen=True)
class SupplyCurve:
    """p(q) = static_kpa - loss_coefficient * q_lpm**1.852 at the connection.

    ``residuals_kpa`` is reading minus curve, in the order of the readings that fixed it;
    ``bucket_lpm`` is the best open-tap flow, none without a bucket test. ``margin_kpa`` has
    been taken off for the worst season; ``readings`` have not. ``band`` is none where nothing
    was measured that it could rest on.
    """

    static_kpa: float
    loss_coefficient: float
    residuals_kpa: tuple[float, ...]
    confidence: Confidence
    bucket_lpm: float | None = None
    tested_lpm: float = 0.0
    margin_kpa: float = 0.0
    readings: tuple[PlacedReading, ...] = ()
    band: CurveBand | None = None

    @property
    def confidence_sentence(self) -> str:
        return _CONFIDENCE[self.confidence]

    def band_kpa(self, flow_lpm: float) -> float | None:
        """Half the width within which the curve lies at about 95 %; none where nobody can say."""
        return None if self.band is None else self.band.half_width_kpa(flow_lpm)

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


_CONFIDENCE: dict[Confidence, str] = {
    "measured": "Measured: the residual pressure was read while a known flow ran.",
    "cautious": "Cautious: only the open tap was measured, which itself chokes; more may be there.",
    "provisional": "Provisional: no flow was measured; the curve is a guess from meter and service pipe.",
}


def fit_supply(
    static_kpa: float | None,
    readings: Sequence[Reading] = (),
    rise_m: float = 0.0,
    upstream: Upstream = NOTHING_KNOWN,
    limits: Limits = DEFAULT_LIMITS,
) -> SupplyCurve:
    """Curve at the connection from readings at taps.

    ``static_kpa`` was read at a tap below the connection by ``rise_m`` (negative: above it);
    each reading tells how far its own tap lies above that one. With gauge readings the
    confidence is ``measured`` and a bucket is only a lower bound, as the tap itself chokes;
    with buckets alone the curve passes through zero pressure at their tap and flow, which is
    ``cautious``. With neither, ``limits.provisional_share`` of the static is taken to be left
    at the smaller of the meter's and the service pipe's share: ``provisional``. Without a
    static reading the curve is laid through two gauge readings or more.
    Raises SupplyContradiction where the readings cannot all be true, or say too little.
    """
    refuse_bad_readings(readings)
    gauges = tuple(r for r in readings if isinstance(r, GaugeReading))
    buckets = tuple(r for r in readings if isinstance(r, BucketReading))
    statics = _statics(static_kpa, readings)
    static = _anchor(statics, gauges)
    refuse_contradictions(static, gauges, limits)
    points, confidence = _curve_points(static, gauges, buckets, upstream, limits)
    k = _least_squares(static, points)
    misses = tuple(p - (static - k * q**FLOW_EXPONENT) for q, p in points)
    if gauges:
        _refuse_bucket_beyond_curve(best_bucket(buckets, static), static, k, limits)
    measured = confidence != "provisional"
    return SupplyCurve(
        static_kpa=static - KPA_PER_M * rise_m - limits.supply_margin_kpa,
        loss_coefficient=k,
        residuals_kpa=misses,
        confidence=confidence,
        bucket_lpm=best_bucket_lpm(buckets),
        tested_lpm=max((r.flow_lpm for r in readings), default=0.0),
        margin_kpa=limits.supply_margin_kpa,
        readings=_placed(statics, (*gauges, *buckets), (static, k, rise_m)),
        band=curve_band(max(len(statics), 1), points, misses, k, limits) if measured else None,
    )


def _statics(static_kpa: float | None, readings: Sequence[Reading]) -> tuple[StaticReading, ...]:
    found = tuple(r for r in readings if isinstance(r, StaticReading))
    if static_kpa is None:
        return found
    if not 0 < static_kpa < math.inf:
        raise SupplyContradiction("the static pressure must be above zero; read it with every tap shut")
    return (StaticReading(static_kpa), *found)


def _anchor(statics: Sequence[StaticReading], gauges: Sequence[GaugeReading]) -> float:
    """Mean of the static readings, or where the line through the gauge readings meets no flow."""
    if statics:
        return sum(static.level_kpa for static in statics) / len(statics)
    xs = [gauge.flow_lpm**FLOW_EXPONENT for gauge in gauges]
    if len(set(xs)) < 2:
        raise SupplyContradiction("there is no static pressure; read it with every tap shut")
    ps = [gauge.level_kpa for gauge in gauges]
    mean_x, mean_p = sum(xs) / len(xs), sum(ps) / len(ps)
    slope = sum((x - mean_x) * (p - mean_p) for x, p in zip(xs, ps, strict=True))
    return mean_p - mean_x * slope / sum((x - mean_x) ** 2 for x in xs)


def _placed(
    statics: Sequence[StaticReading],
    flowing: Sequence[GaugeReading | BucketReading],
    curve: tuple[float, float, float],
) -> tuple[PlacedReading, ...]:
    """All readings at the level of the connection; ``curve`` is its static, k and rise."""
    static, k, rise_m = curve
    gauged = any(isinstance(reading, GaugeReading) for reading in flowing)
    found = []
    for reading in (*statics, *flowing):
        bucket = isinstance(reading, BucketReading)
        miss = reading.level_kpa - (static - k * reading.flow_lpm**FLOW_EXPONENT)
        kind: Literal["static", "gauge", "bucket"] = (
            "bucket" if bucket else "gauge" if isinstance(reading, GaugeReading) else "static"
        )
        at_connection = reading.level_kpa - KPA_PER_M * rise_m
        found.append(
            PlacedReading(
                kind, reading.tap, reading.flow_lpm, at_connection, None if bucket and gauged else miss
            )
        )
    return tuple(found)


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


def _refuse_bucket_beyond_curve(
    bucket: tuple[float, float] | None, static_kpa: float, k: float, limits: Limits
) -> None:
    if bucket is None:
        return
    flow, left_kpa = bucket
    most = (max(static_kpa - left_kpa, 0.0) / k) ** (1 / FLOW_EXPONENT)
    if flow > most * (1 + limits.flow_tolerance_share):
        raise SupplyContradiction(
            f"the bucket shows {flow:.1f} L/min, yet by the gauge no more than {most:.1f} L/min can "
            "flow with no pressure left; repeat the gauge reading"
        )


def _curve_points(
    static_kpa: float,
    gauges: Sequence[GaugeReading],
    buckets: Sequence[BucketReading],
    upstream: Upstream,
    limits: Limits,
) -> tuple[tuple[tuple[float, float], ...], Confidence]:
    if gauges:
        return tuple((g.flow_lpm, g.level_kpa) for g in gauges), "measured"
    best = best_bucket(buckets, static_kpa)
    if best is None:
        left_kpa = limits.provisional_share * static_kpa
        return ((_assumed_flow_lpm(upstream, limits), left_kpa),), "provisional"
    if best[1] >= static_kpa:
        raise SupplyContradiction(
            f"water ran from a tap too high for the static {static_kpa:.0f} kPa to reach; measure its height"
        )
    return (best,), "cautious"


def _assumed_flow_lpm(upstream: Upstream, limits: Limits) -> float:
    bore = upstream.service_bore_mm or limits.smallest_service_bore_mm
    flow = flow_at_velocity_lpm(limits.service_velocity_mps, bore)
    if upstream.meter_safe_max_lpm is not None:
        flow = min(flow, limits.meter_share * upstream.meter_safe_max_lpm)
    return flow


def _least_squares(static_kpa: float, points: Sequence[tuple[float, float]]) -> float:
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
