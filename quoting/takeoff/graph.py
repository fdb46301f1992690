"""The layout as arms at nodes: which pipes end where, and in which direction they leave."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from design.document import ControllerNode, HeadNode, Plan, ValveNode
from design.report import XY, CheckReport, PipeMeasure
from design.topology import build_topology
from hydraulics.catalogue import Catalogue, DripPart, HeadPart, PipePart


@dataclass(frozen=True)
class Arm:
    """One end of a pipe at a node. ``heading`` points away from it; none for a pipe of no length."""

    pipe: str
    part: PipePart
    main: bool
    heading: XY | None
    leg_m: float  # straight length before the first bend


@dataclass(frozen=True)
class Line:
    """A pipe with its path cleaned of repeated points."""

    measure: PipeMeasure
    part: PipePart
    path: tuple[XY, ...]

    @property
    def main(self) -> bool:
        return self.measure.role == "main"


def clean_path(path: Sequence[XY]) -> tuple[XY, ...]:
    kept: list[XY] = []
    for x, y in path:
        if not kept or math.dist(kept[-1], (x, y)) > 1e-6:
            kept.append((x, y))
    return tuple(kept)


def deflection_deg(first: XY | None, second: XY | None) -> float:
    """How far a pipe turns between two arms that both point away: 0 is straight on."""
    if first is None or second is None:
        return 0.0
    dot = -(first[0] * second[0] + first[1] * second[1])
    return math.degrees(math.acos(max(-1.0, min(1.0, dot))))


def heading(start: XY, end: XY) -> XY:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


class LayoutGraph:
    """Nodes of a plan with their arms; lengths and roles as the check report measured them."""

    def __init__(self, plan: Plan, report: CheckReport, parts: Catalogue) -> None:
        self.plan, self.report, self.parts = plan, report, parts
        self.topology = build_topology(plan, self._own_valves())
        self._refuse_unknown_heads()
        measured = {measure.id: measure for measure in report.pipes}
        self.lines = {pipe.id: self._line(measured[pipe.id], pipe.part) for pipe in plan.layout.pipes}

    def _own_valves(self) -> frozenset[str]:
        nodes = (node for node in self.plan.layout.nodes if isinstance(node, HeadNode))
        return frozenset(n.id for n in nodes if getattr(self.parts.get(n.part), "own_valve", False))

    def _refuse_unknown_heads(self) -> None:
        """A head without a part in the book would otherwise be left out of the count."""
        for node in self.plan.layout.nodes:
            if isinstance(node, HeadNode) and not isinstance(self.parts.get(node.part), HeadPart | DripPart):
                self.parts.need(node.part, HeadPart)

    def _line(self, measure: PipeMeasure, code: str) -> Line:
        return Line(measure, self.parts.need(code, PipePart), clean_path(measure.path))

    @cached_property
    def arms(self) -> dict[str, tuple[Arm, ...]]:
        found: dict[str, list[Arm]] = {node: [] for node in self.topology.nodes}
        for pipe in self.plan.layout.pipes:
            line = self.lines[pipe.id]
            found[pipe.from_].append(_arm(pipe.id, line, line.path))
            found[pipe.to].append(_arm(pipe.id, line, line.path[::-1]))
        return {node: tuple(arms) for node, arms in found.items()}

    @cached_property
    def heads(self) -> tuple[tuple[HeadNode, HeadPart], ...]:
        pairs = ((n, self.parts.get(n.part)) for n in self.plan.layout.nodes if isinstance(n, HeadNode))
        return tuple((node, part) for node, part in pairs if isinstance(part, HeadPart))

    @cached_property
    def drip_inlets(self) -> tuple[tuple[HeadNode, DripPart], ...]:
        pairs = ((n, self.parts.get(n.part)) for n in self.plan.layout.nodes if isinstance(n, HeadNode))
        return tuple((node, part) for node, part in pairs if isinstance(part, DripPart))

    @cached_property
    def valves(self) -> tuple[ValveNode, ...]:
        return tuple(n for n in self.plan.layout.nodes if isinstance(n, ValveNode))

    @cached_property
    def controllers(self) -> tuple[ControllerNode, ...]:
        return tuple(n for n in self.plan.layout.nodes if isinstance(n, ControllerNode))

    def manifolds(self, reach_m: float) -> tuple[tuple[ValveNode, ...], ...]:
        """Valves in groups that stand within reach of one another, in plan order."""
        groups: list[list[ValveNode]] = []
        for valve in self.valves:
            near = [g for g in groups if any(math.dist(valve.at, v.at) <= reach_m for v in g)]
            groups = [g for g in groups if g not in near]
            groups.append([v for g in near for v in g] + [valve])
        return tuple(tuple(group) for group in groups)

    def near_valve(self, node_id: str, reach_m: float) -> bool:
        """Whether a node of the main belongs to a manifold: a valve stands within reach of it."""
        at = self.topology.nodes[node_id].at
        return any(math.dist(at, valve.at) <= reach_m for valve in self.valves)


def _arm(pipe_id: str, line: Line, path: tuple[XY, ...]) -> Arm:
    if len(path) < 2:
        return Arm(pipe_id, line.part, line.main, None, 0.0)
    return Arm(pipe_id, line.part, line.main, heading(path[0], path[1]), math.dist(path[0], path[1]))
