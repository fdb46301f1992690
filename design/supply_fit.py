"""The supply of a plan: its curve at the connection, and the flow to design for."""

from design.document import BucketTest, Plan
from design.problems import PlanInvalid, Problem
from design.report import SupplyLimit, SupplyResult
from hydraulics.catalogue import Catalogue, MeterPart
from hydraulics.errors import SupplyContradiction
from hydraulics.limits import Limits
from hydraulics.supply import (
    BucketReading,
    DesignFlow,
    GaugeReading,
    SupplyCurve,
    Upstream,
    design_flow,
    fit_supply,
)


def upstream_of(plan: Plan, parts: Catalogue) -> Upstream:
    """The meter and the service pipe, as far as the visit found them."""
    supply = plan.supply
    meter = parts.need(supply.meter, MeterPart).safe_max_lpm if supply.meter else None
    return Upstream(meter, supply.service_pipe.bore_mm if supply.service_pipe else None)


def fit_plan_supply(plan: Plan, parts: Catalogue, connection_z_m: float, limits: Limits) -> SupplyCurve:
    """The curve at the connection. Raises PlanInvalid where the readings cannot all be true."""
    readings = tuple(
        BucketReading(test.litres, test.seconds, test.tap)
        if isinstance(test, BucketTest)
        else GaugeReading(test.flow_lpm, test.residual_kpa, test.tap)
        for test in plan.supply.tests
    )
    rise_m = connection_z_m - plan.supply.z_m
    try:
        return fit_supply(plan.supply.static_kpa, readings, rise_m, upstream_of(plan, parts), limits)
    except SupplyContradiction as error:
        sentence = str(error)
        raise PlanInvalid([Problem("supply", "tests", sentence[:1].upper() + sentence[1:] + ".")]) from None


def plan_design_flow(
    curve: SupplyCurve, needed_kpa: float, plan: Plan, parts: Catalogue, limits: Limits
) -> DesignFlow:
    """The flow to design for, with every cap on it."""
    return design_flow(curve, needed_kpa, upstream_of(plan, parts), limits)


def supply_result(curve: SupplyCurve, design: DesignFlow) -> SupplyResult:
    """The curve and the design flow in the form of the report."""
    caps = tuple(SupplyLimit(cap.name, cap.flow_lpm, cap.sentence, cap.source) for cap in design.caps)
    return SupplyResult(
        curve.static_kpa, curve.loss_coefficient, curve.residuals_kpa, curve.confidence,
        design.flow_lpm, design.binding, caps,
    )  # fmt: skip
