"""The supply of a plan: its curve at the connection, and the flow to design for."""

from collections.abc import Iterator, Sequence

from design.document import BucketTest, GaugeTest, Plan, StaticTest
from design.problems import PlanInvalid, Problem
from design.report import CaseResult, SupplyBand, SupplyLimit, SupplyReading, SupplyResult
from hydraulics.catalogue import Catalogue, MeterPart
from hydraulics.errors import SupplyContradiction
from hydraulics.limits import Limits
from hydraulics.supply import (
    BucketReading,
    DesignFlow,
    GaugeReading,
    Reading,
    StaticReading,
    SupplyCurve,
    Upstream,
    design_flow,
    fit_supply,
)

# the band is given at these many flows, and this far past the largest flow of interest
BAND_STEPS, BAND_REACH = 24, 1.5


def upstream_of(plan: Plan, parts: Catalogue) -> Upstream:
    """The meter and the service pipe, as far as the visit found them."""
    supply = plan.supply
    meter = parts.need(supply.meter, MeterPart).safe_max_lpm if supply.meter else None
    return Upstream(meter, supply.service_pipe.bore_mm if supply.service_pipe else None)


def fit_plan_supply(plan: Plan, parts: Catalogue, connection_z_m: float, limits: Limits) -> SupplyCurve:
    """The curve at the connection. Raises PlanInvalid where the readings cannot all be true."""
    supply = plan.supply
    readings = tuple(_reading(test, supply.z_m) for test in supply.tests)
    rise_m = connection_z_m - supply.z_m
    try:
        return fit_supply(supply.static_kpa, readings, rise_m, upstream_of(plan, parts), limits)
    except SupplyContradiction as error:
        sentence = str(error)
        raise PlanInvalid([Problem("supply", "tests", sentence[:1].upper() + sentence[1:] + ".")]) from None


def _reading(test: BucketTest | GaugeTest | StaticTest, tap_z_m: float) -> Reading:
    """A test of the plan; a tap without a height of its own is that of the static reading."""
    above_m = 0.0 if test.z_m is None else test.z_m - tap_z_m
    if isinstance(test, BucketTest):
        return BucketReading(test.litres, test.seconds, test.tap, above_m)
    if isinstance(test, StaticTest):
        return StaticReading(test.pressure_kpa, test.tap, above_m)
    return GaugeReading(test.flow_lpm, test.residual_kpa, test.tap, above_m)


def plan_design_flow(
    curve: SupplyCurve, needed_kpa: float, plan: Plan, parts: Catalogue, limits: Limits
) -> DesignFlow:
    """The flow to design for, with every cap on it."""
    return design_flow(curve, needed_kpa, upstream_of(plan, parts), limits)


def supply_result(
    curve: SupplyCurve, design: DesignFlow, needed_kpa: float = 0.0, cases: Sequence[CaseResult] = ()
) -> SupplyResult:
    """The curve and the design flow in the form of the report; the band reaches past every case."""
    caps = tuple(SupplyLimit(cap.name, cap.flow_lpm, cap.sentence, cap.source) for cap in design.caps)
    readings = tuple(SupplyReading(r.kind, r.tap, r.flow_lpm, r.kpa, r.miss_kpa) for r in curve.readings)
    asked = max((case.flow_lpm for case in cases), default=0.0)
    most_lpm = BAND_REACH * max(curve.tested_lpm, design.flow_lpm, asked)
    return SupplyResult(
        curve.static_kpa, curve.loss_coefficient, curve.residuals_kpa, curve.confidence,
        design.flow_lpm, design.binding, caps, curve.confidence_sentence, curve.margin_kpa,
        needed_kpa, readings, tuple(_band(curve, most_lpm)),
    )  # fmt: skip


def _band(curve: SupplyCurve, most_lpm: float) -> Iterator[SupplyBand]:
    for step in range(BAND_STEPS + 1):
        flow = most_lpm * step / BAND_STEPS
        half, middle = curve.band_kpa(flow), curve.pressure_kpa(flow)
        if half is not None:
            yield SupplyBand(flow, middle - half, middle + half)
