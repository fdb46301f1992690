"""Reports built by plain measurement, so that a take-off is tested without the hydraulics."""

import json
import math
from itertools import pairwise
from pathlib import Path
from typing import Any

from design.document import Plan
from design.report import CableResult, CheckReport, PipeMeasure, SupplyResult, TrenchStretch
from design.runs import cut_routes
from design.topology import build_topology
from hydraulics.catalogue import Catalogue

ROOT = Path(__file__).resolve().parents[2]


def load_book() -> Catalogue:
    book = json.loads((ROOT / "demo" / "price_book.json").read_text())
    return Catalogue.from_dicts(part["data"] for part in book["parts"])


def load_s1() -> Plan:
    return Plan.model_validate(json.loads((ROOT / "tests" / "plans" / "s1.json").read_text()))


def make_plan(**layout: Any) -> Plan:
    supply = layout.pop("supply", {"at": [0, 0], "static_kpa": 400})
    ground = layout.pop("ground", {})
    return Plan.model_validate({"format": "plan/1", "ground": ground, "supply": supply, "layout": layout})


def make_report(plan: Plan, **changes: Any) -> CheckReport:
    """Pipes along their path, one machine trench as the union of their routes, cables as drawn."""
    topology = build_topology(plan)
    at = {node.id: node.at for node in plan.layout.nodes}
    paths = {p.id: (at[p.from_], *p.via, at[p.to]) for p in plan.layout.pipes}
    pipes = tuple(
        PipeMeasure(p.id, p.part, topology.roles[p.id], paths[p.id], path_m(paths[p.id]))
        for p in plan.layout.pipes
    )
    content: dict[str, Any] = {
        "supply": SupplyResult(400, 0.1, (), "measured", 30, "bucket_share", ()),
        "cases": (),
        "zones": (),
        "areas": (),
        "pipes": pipes,
        "trench": make_trench(paths, topology.roles),
        "cables": tuple(_cable(cable, at) for cable in plan.layout.cables),
        "sleeves": (),
        "findings": (),
    }
    return CheckReport(**{**content, **changes})


def make_trench(paths: dict[str, Any], roles: dict[str, Any]) -> tuple[TrenchStretch, ...]:
    stretches = []
    for number, piece in enumerate(cut_routes(paths).values()):
        pipes = tuple(sorted(piece.users))
        role = "main" if any(roles[pipe] == "main" for pipe in pipes) else "lateral"
        path, depth_m = (piece.start, piece.end), 0.45 if role == "main" else 0.3
        stretches.append(
            TrenchStretch(
                f"T{number}", path, piece.length_m, "machine", depth_m, role, pipes, (), "loam", "", ""
            )
        )
    return tuple(stretches)


def path_m(path: Any) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(path))


def _cable(cable: Any, at: dict[str, Any]) -> CableResult:
    path = (at[cable.from_], *cable.via, at[cable.to])
    length_m = path_m(path) + 2 * 0.75
    return CableResult(
        cable.id, cable.from_, cable.to, cable.part, path, path_m(path), 0.0, 1.5, length_m, None
    )
