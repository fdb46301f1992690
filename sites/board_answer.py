"""The check of what is drawn, as the drawing board shows it: in the site's units, with what to draw."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from typing import Any

from design.drawing.measures import depth_words
from design.drawing.options import Units
from design.drawing.wetting import wet_radius_m, wet_ring
from design.partial_check import PartialReport
from design.report import XY, CheckReport, HeadResult, PipeResult
from hydraulics.catalogue import DripPart, HeadPart, PipePart
from hydraulics.findings import Finding, Severity
from hydraulics.sentences import in_units_of
from sites.board_sums import sums_of, supply_of
from sites.figures import in_system
from sites.plan_page import SEVERITY_NAMES
from sites.templatetags.measures import speed

METHODS = {"machine": "by machine", "hand": "by hand", "bore": "bored"}
WORST = {Severity.STOP: "stop", Severity.WARN: "warn", Severity.NOTE: "good"}


def answer(found: PartialReport, units: Units) -> dict[str, Any]:
    """All that the check says, but for what it moved since the last time."""
    report = found.report
    return {
        "valid": found.is_whole,
        "problems": [
            {"entity": one.entity, "field": one.field, "sentence": in_units_of(units, one.sentence)}
            for one in found.problems
        ],
        "findings": [
            {
                "key": key, "code": one.code, "severity": one.severity.value,
                "word": SEVERITY_NAMES[one.severity], "sentence": in_units_of(units, one.sentence),
                "where": list(one.where), "case": one.case,
            }
            for key, one in keyed(found.findings)
        ],
        "heads": _heads(found, report, units) if report else {},
        "pipes": _pipes(found, units),
        "zones": _zones(report, units) if report else [],
        "trench": _trench(found, units),
        "cables": {
            cable.id: {
                "length": in_system(cable.length_m, "length", units),
                "limit": in_system(cable.limit_m, "length", units) if cable.limit_m is not None else None,
                "path": points(cable.path),
            }
            for cable in found.site.cables
        },
        "sums": sums_of(found, units),
        "supply": supply_of(report, units),
        "figures": figures_of(found, units),
    }  # fmt: skip


def keyed(findings: Iterable[Finding]) -> Iterator[tuple[str, Finding]]:
    """Each finding with a key that stays the same as long as it is said of the same things."""
    seen: Counter[str] = Counter()
    for one in findings:
        key = "|".join((one.code, ",".join(one.where), one.case))
        seen[key] += 1
        yield (key if seen[key] == 1 else f"{key}|{seen[key]}"), one


def figures_of(found: PartialReport, units: Units) -> dict[str, Any]:
    """What the next answer is compared with, in SI."""
    return {
        "findings": {key: [one.code, in_units_of(units, one.sentence)] for key, one in keyed(found.findings)},
        "heads": {
            name: [round(head.pressure_kpa, 2), round(head.reach_m, 3)]
            for name, head in neediest(found.report).items()
        },
    }


def neediest(report: CheckReport | None) -> dict[str, HeadResult]:
    """Each head in the case in which it has the least pressure."""
    lowest: dict[str, HeadResult] = {}
    for case in report.cases if report else ():
        for head in case.heads:
            if head.id not in lowest or head.pressure_kpa < lowest[head.id].pressure_kpa:
                lowest[head.id] = head
    return lowest


def points(path: Iterable[XY]) -> list[list[float]]:
    return [[round(x, 3), round(y, 3)] for x, y in path]


def _heads(found: PartialReport, report: CheckReport, units: Units) -> dict[str, Any]:
    worst = _worst_by_place(found.findings)
    return {
        name: {
            "pressure": in_system(head.pressure_kpa, "pressure", units),
            "throw": in_system(head.reach_m, "length", units) if head.reach_m else "",
            "flow": in_system(head.flow_lpm, "flow", units),
            "reach_m": round(head.reach_m, 3),
            **_arc(found, name),
            "zone": head.zone,
            "worst": WORST[worst.get(name, Severity.NOTE)],
            "pattern": _pattern(found, report, name),
        }
        for name, head in neediest(report).items()
    }


def _arc(found: PartialReport, name: str) -> dict[str, float]:
    node, part = found.site.heads[name], found.site.parts[found.site.heads[name].part]
    if isinstance(part, HeadPart) and part.pattern == "full_circle":
        return {"from_deg": 0, "sweep_deg": 360}
    return {"from_deg": node.from_deg, "sweep_deg": node.sweep_deg}


def _pattern(found: PartialReport, report: CheckReport, name: str) -> list[list[float]] | None:
    """Outline of what a sprinkler wets at its solved throw; none for drip."""
    node = found.site.heads[name]
    part = found.site.parts[node.part]
    radius_m = wet_radius_m(node, part, report)
    if isinstance(part, DripPart) or not radius_m:
        return None
    return points(wet_ring(node, part, radius_m, found.site.plan.ground.areas))


def _worst_by_place(findings: Iterable[Finding]) -> dict[str, Severity]:
    worst: dict[str, Severity] = {}
    for one in findings:  # in order: stops come first
        for name in one.where:
            worst.setdefault(name, one.severity)
    return worst


def _pipes(found: PartialReport, units: Units) -> dict[str, Any]:
    busiest: dict[str, PipeResult] = {}
    for case in found.report.cases if found.report else ():
        for result in case.pipes:
            if result.id not in busiest or result.velocity_mps > busiest[result.id].velocity_mps:
                busiest[result.id] = result
    zone_of = {pipe: zone.id for zone in found.site.topology.zones.values() for pipe in zone.pipes}
    rows = {}
    for pipe in found.site.pipes:
        flows = busiest.get(pipe.id)
        rows[pipe.id] = {
            "size": found.site.parts.need(pipe.part, PipePart).size,
            "length": in_system(pipe.length_m, "length", units),
            "flow": in_system(abs(flows.flow_lpm), "flow", units) if flows else "",
            "velocity": speed(flows.velocity_mps, units) if flows else "",
            "role": pipe.role,
            "zone": zone_of.get(pipe.id, ""),
        }
    return rows


def _zones(report: CheckReport, units: Units) -> list[dict[str, Any]]:
    lowest: dict[str, list[HeadResult]] = defaultdict(list)
    for head in neediest(report).values():
        lowest[head.zone].append(head)
    rows = []
    for zone in report.zones:
        worst = min(lowest[zone.id], key=lambda head: head.pressure_kpa, default=None)
        rows.append(
            {
                "id": zone.id, "label": zone.label, "heads": list(zone.heads),
                "flow": in_system(zone.flow_lpm, "flow", units),
                "worst_head": worst.id if worst else "",
                "pressure": in_system(worst.pressure_kpa, "pressure", units) if worst else "",
            }
        )  # fmt: skip
    return rows


def _trench(found: PartialReport, units: Units) -> list[dict[str, Any]]:
    return [
        {
            "path": points(stretch.path),
            "method": stretch.method,
            "method_word": METHODS[stretch.method],
            "depth": depth_words(stretch.depth_m, units),
            "length": in_system(stretch.length_m, "length", units),
            "shared": len(stretch.pipes) + len(stretch.cables) > 1,
        }
        for stretch in found.site.trench
    ]
