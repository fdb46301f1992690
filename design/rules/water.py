"""What the hydraulic rules have to say about a plan: it is put to them case by case."""

import math
from collections.abc import Iterable, Iterator

from design.document import BucketTest, ValveNode
from design.report import CaseResult, HeadResult, PipeResult
from design.site import Site
from design.topology import Zone
from hydraulics.catalogue import BackflowPart, DripPart, HeadPart, PipePart, ValvePart
from hydraulics.emitters import precipitation_mm_per_hour
from hydraulics.findings import Finding
from hydraulics.heads import throw_at
from hydraulics.rules import (
    BackflowSite,
    HeadPressure,
    HeadRows,
    LevelHead,
    PipeFlow,
    RatedPipe,
    ZoneHead,
    backflow,
    beyond_test,
    bucket_runs,
    case_flow,
    head_pressure,
    head_rows,
    low_head_drainage,
    pipe_velocity,
    service_velocity,
    static_pressure,
    static_rating,
    supply_confidence,
    supply_scatter,
    surge_rating,
    zone_families,
    zone_precipitation,
    zone_pressure_spread,
)
from hydraulics.supply import BucketReading, DesignFlow, SupplyCurve
from hydraulics.surge import pipe_surge_kpa
from hydraulics.units import KPA_PER_M


def water_findings(
    site: Site, curve: SupplyCurve, design: DesignFlow, cases: tuple[CaseResult, ...]
) -> Iterator[Finding]:
    """All findings on supply, pressures, flows and pipes."""
    yield from _supply_findings(site, curve)
    for case in cases:
        yield from case_flow(case.label, case.zones, case.flow_lpm, design, site.limits)
        yield from beyond_test(curve, case.label, case.flow_lpm)
        yield from _head_findings(site, case)
        yield from _zone_findings(site, case)
    fastest = _fastest(cases)
    flows = [PipeFlow(pipe.id, pipe.case, pipe.flow_lpm, pipe.velocity_mps) for pipe in fastest]
    yield from pipe_velocity(flows, site.limits)
    yield from _rating_findings(site, curve, fastest)
    for zone in site.topology.zones.values():
        yield from _drainage_findings(site, zone)
    if site.topology.supply is not None and site.topology.pipes:
        yield from _backflow_findings(site, site.topology.supply)


def _supply_findings(site: Site, curve: SupplyCurve) -> Iterator[Finding]:
    yield from supply_confidence(curve, site.limits)
    yield from supply_scatter(curve, site.limits)
    yield from static_pressure(curve.static_kpa)
    runs: dict[str, list[BucketReading]] = {}
    for test in site.plan.supply.tests:
        if isinstance(test, BucketTest):
            runs.setdefault(test.tap, []).append(BucketReading(test.litres, test.seconds, test.tap))
    for same_tap in runs.values():
        yield from bucket_runs(same_tap)
    pipe = site.plan.supply.service_pipe
    if pipe is not None and curve.tested_lpm > 0:
        yield from service_velocity(curve.tested_lpm, pipe.bore_mm)


def _head_findings(site: Site, case: CaseResult) -> Iterator[Finding]:
    pressures, rows = [], []
    for head in case.heads:
        part, at = site.parts[head.part], site.heads[head.id].at
        if isinstance(part, HeadPart | DripPart):
            pressures.append(
                HeadPressure(
                    head.id, case.label, head.pressure_kpa, part.min_kpa, part.max_kpa, at, head.label
                )
            )
        if isinstance(part, HeadPart):
            ends = [row.pressure_kpa for row in part.rows]
            clamped = throw_at(part, head.pressure_kpa).clamped
            rows.append(HeadRows(head.id, case.label, head.pressure_kpa, min(ends), max(ends), clamped))
    yield from head_pressure(pressures, site.limits)
    yield from head_rows(rows)


def _zone_findings(site: Site, case: CaseResult) -> Iterator[Finding]:
    by_zone: dict[str, list[ZoneHead]] = {zone: [] for zone in case.zones}
    for head in case.heads:
        by_zone[head.zone].append(_zone_head(site, head))
    for zone, heads in by_zone.items():
        yield from zone_pressure_spread(zone, case.label, heads, site.limits)
        yield from zone_precipitation(zone, case.label, heads, site.limits)
        yield from zone_families(zone, case.label, heads)


def _zone_head(site: Site, head: HeadResult) -> ZoneHead:
    part = site.parts[head.part]
    if isinstance(part, DripPart):
        acting = min(head.pressure_kpa, part.min_kpa)
        return ZoneHead(head.id, "drip", acting, site.drips[head.id].mm_per_hour)
    sprinkler = site.parts.need(head.part, HeadPart)
    acting = min(head.pressure_kpa, sprinkler.regulated_kpa or head.pressure_kpa)
    rate = None
    if sprinkler.pattern != "by_bearing" and head.throw_m > 0:
        # at its full throw: a head screwed down gives off less, which its rows do not tell
        sweep = 360.0 if sprinkler.pattern == "full_circle" else site.heads[head.id].sweep_deg
        rate = precipitation_mm_per_hour(head.flow_lpm, math.pi * head.throw_m**2 * sweep / 360)
    return ZoneHead(head.id, sprinkler.family, acting, rate)


def _fastest(cases: Iterable[CaseResult]) -> list[PipeResult]:
    """Of each pipe the case in which water runs fastest in it."""
    found: dict[str, PipeResult] = {}
    for case in cases:
        for pipe in case.pipes:
            if pipe.id not in found or pipe.velocity_mps > found[pipe.id].velocity_mps:
                found[pipe.id] = pipe
    return list(found.values())


def _rating_findings(site: Site, curve: SupplyCurve, fastest: list[PipeResult]) -> Iterator[Finding]:
    """The main and its valves at rest, and the main when a valve shuts. Laterals stand open at the heads."""
    topology = site.topology
    if topology.supply is None:
        return
    level = site.heights
    at_rest = {
        name: curve.static_kpa + KPA_PER_M * (level[topology.supply] - height)
        for name, height in level.items()
    }
    speed = {pipe.id: pipe for pipe in fastest}
    rated = []
    for pipe_id, pipe in topology.pipes.items():
        if topology.roles[pipe_id] == "main":
            part = site.parts.need(pipe.part, PipePart)
            static = max(at_rest[pipe.from_], at_rest[pipe.to])
            case = speed[pipe_id].case if pipe_id in speed else ""
            velocity = speed[pipe_id].velocity_mps if pipe_id in speed else 0.0
            surge = pipe_surge_kpa(velocity, part.outside_mm, part.bore_mm, part.modulus_gpa)
            rated.append(RatedPipe(pipe_id, part.rating_kpa, static, surge, velocity, case))
    yield from surge_rating(rated, site.limits)
    for node in topology.nodes.values():
        if isinstance(node, ValveNode):
            rated.append(
                RatedPipe(node.id, site.parts.need(node.part, ValvePart).rating_kpa, at_rest[node.id])
            )
    yield from static_rating(rated, site.limits)


def _drainage_findings(site: Site, zone: Zone) -> Iterator[Finding]:
    heads = []
    for head in zone.heads:
        part = site.parts[site.heads[head].part]
        if isinstance(part, HeadPart | DripPart):
            heads.append(LevelHead(head, site.heights[head], part.check_height_m))
    highest = max((site.heights[name] for name in zone.nodes), default=0.0)
    yield from low_head_drainage(zone.id, highest, heads, site.limits)


def _backflow_findings(site: Site, supply: str) -> Iterator[Finding]:
    code = site.plan.supply.backflow
    device = site.parts.need(code, BackflowPart) if code else None
    ground = site.heights[supply]
    heads = [site.heights[head] for head in site.heads]
    valves = sum(1 for node in site.topology.nodes.values() if isinstance(node, ValveNode))
    yield from backflow(
        BackflowSite(
            device=device.device if device else "",
            part=device.label if device else "",
            min_height_m=device.min_height_m if device else 0.0,
            height_m=site.plan.supply.backflow_height_m,
            ground_level_m=ground,
            highest_outlet_m=max(heads, default=ground),
            valves_behind=valves,
        )
    )
