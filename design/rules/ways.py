"""What the rules have to say about the ways of the water: rows of drip, high points, regulators, boost."""

import math
from collections.abc import Iterator

from design.high_points import high_points
from design.network_build import regulator_of
from design.report import CaseResult
from design.site import Site
from design.solving import Solved, least_kpa
from hydraulics.catalogue import BackflowPart, DripPart, ValvePart
from hydraulics.drip_row import longest_row_m
from hydraulics.findings import Finding
from hydraulics.network import Solution
from hydraulics.rules import (
    DripRow,
    HeadBoost,
    NodePressure,
    ZoneRegulator,
    air_points,
    drip_rows,
    head_impossible,
    regulator_open,
    suction,
)
from hydraulics.units import KPA_PER_M


def way_findings(site: Site, solved: Solved, cases: tuple[CaseResult, ...]) -> Iterator[Finding]:
    """All findings on the ways of the water."""
    yield from head_impossible(_boosts(site, solved))
    yield from air_points(high_points(site, site.limits.air_high_point_m), site.limits)
    for case, solution in zip(cases, solved.solutions, strict=True):
        yield from drip_rows(_rows(site, case))
        yield from regulator_open(_open_regulators(site, case, solution))
        yield from suction(_nodes(site, case))


def _rows(site: Site, case: CaseResult) -> Iterator[DripRow]:
    """The longest row of each drip area that runs; its inlet's pressure is taken for all rows."""
    for head in case.heads:
        part = site.parts[head.part]
        if not isinstance(part, DripPart):
            continue
        rows = site.drips[head.id].rows
        longest = max((math.dist(*piece) for row in rows for piece in row), default=0.0)
        spaces = math.floor(longest / part.emitter_spacing_m + 1e-6)
        allowed = longest_row_m(part, head.pressure_kpa, site.limits.drip_flow_variation_pct)
        if head.pressure_kpa >= part.min_kpa:  # else the head's own rule says so
            yield DripRow(head.id, case.label, spaces * part.emitter_spacing_m, allowed, head.pressure_kpa)


def _open_regulators(site: Site, case: CaseResult, solution: Solution) -> Iterator[ZoneRegulator]:
    for zone in case.zones:
        if solution.regulators.get(regulator_of(zone)) == "open":
            node = site.topology.nodes[zone]
            valve = site.parts.need(getattr(node, "part", ""), ValvePart)
            arriving = solution.node_kpa[f"{zone}~held"]
            yield ZoneRegulator(zone, case.label, arriving, valve.regulates_kpa or 0.0)


def _nodes(site: Site, case: CaseResult) -> Iterator[NodePressure]:
    for name, pressure in case.node_kpa.items():
        if pressure < 0 and name not in site.heads:
            yield NodePressure(name, case.label, pressure, site.topology.nodes[name].at)


def _boosts(site: Site, solved: Solved) -> Iterator[HeadBoost]:
    supply = site.topology.supply
    if supply is None:
        return
    at_supply = solved.supply.static_kpa - _always_lost_kpa(site)
    for head in site.heads.values():
        left = at_supply + KPA_PER_M * (site.heights[supply] - site.heights[head.id])
        yield HeadBoost(head.id, left, least_kpa(site, head.part), head.at)


def _always_lost_kpa(site: Site) -> float:
    """What the backflow device takes at any flow: its first two rows carried back to no flow."""
    code = site.plan.supply.backflow
    device = site.parts.need(code, BackflowPart) if code else None
    if device is None or len(device.loss) < 2:
        return 0.0
    first, second = device.loss[:2]
    slope = (second.loss_kpa - first.loss_kpa) / (second.flow_lpm - first.flow_lpm)
    return max(first.loss_kpa - slope * first.flow_lpm, 0.0)
