"""What must hold across the whole document before anything can be measured on it."""

from collections import Counter
from collections.abc import Iterator, Sequence

from shapely import Polygon, is_valid_reason

from design.document import (
    Area,
    Cable,
    HeadNode,
    Level,
    Mark,
    Node,
    Note,
    Pipe,
    Plan,
    Service,
    Sleeve,
    Surface,
    ValveNode,
)
from design.geometry import XY, path_length
from design.problems import Problem
from design.topology import build_topology, connection_problems

Entity = Mark | Area | Surface | Service | Level | Node | Pipe | Cable | Sleeve | Note
SHORTEST_PIPE_M = 0.05  # a piece between two valves of a manifold is longer


def plan_problems(plan: Plan) -> list[Problem]:
    """Everything that is wrong across entities; empty for a sound plan."""
    problems = [
        *_repeated_ids(plan),
        *_outline_problems(plan),
        *_supply_problems(plan),
        *_end_problems(plan),
        *_reference_problems(plan),
    ]
    if problems:
        return problems
    return [*_short_pipe_problems(plan), *connection_problems(build_topology(plan))]


def _repeated_ids(plan: Plan) -> Iterator[Problem]:
    ground, layout = plan.ground, plan.layout
    groups: tuple[Sequence[Entity], ...] = (
        ground.marks, ground.areas, ground.surfaces, ground.services, ground.levels,
        layout.nodes, layout.pipes, layout.cables, layout.sleeves, layout.notes,
    )  # fmt: skip
    counts = Counter(entity.id for group in groups for entity in group if entity.id is not None)
    for name, count in counts.items():
        if count > 1:
            yield Problem(name, "id", f"{count} entities have this id; give each its own.")
    for label, count in Counter(case.label for case in layout.cases).items():
        if count > 1:
            yield Problem(label, "label", f"{count} cases have this label; give each its own.")


def _outline_problems(plan: Plan) -> Iterator[Problem]:
    for area in plan.ground.areas:
        outline_problem = _ring_problem(area.outline)
        if outline_problem:
            yield Problem(area.id, "outline", outline_problem)
            continue
        for number, hole in enumerate(area.holes):
            problem = _ring_problem(hole)
            if not problem and not Polygon(area.outline).buffer(0.001).covers(Polygon(hole)):
                problem = "This hole reaches outside the outline; draw it inside."
            if problem:
                yield Problem(area.id, f"holes[{number}]", problem)
    for surface in plan.ground.surfaces:
        problem = _ring_problem(surface.outline)
        if problem:
            yield Problem(surface.id, "outline", problem)


def _ring_problem(ring: Sequence[XY]) -> str:
    if len(set(ring)) < 3:
        return "An outline needs three different corners."
    polygon = Polygon(ring)
    if polygon.is_valid:
        return "" if polygon.area > 1e-6 else "This outline encloses nothing."
    reason = is_valid_reason(polygon)
    if "[" in reason:
        x, y = (float(part) for part in reason.split("[")[1].rstrip("]").split()[:2])
        return (
            f"This outline crosses or touches itself near ({x:g}, {y:g}); correct the order of its corners."
        )
    return "This outline crosses itself; correct the order of its corners."


def _supply_problems(plan: Plan) -> Iterator[Problem]:
    supplies = [node.id for node in plan.layout.nodes if node.kind == "supply"]
    if plan.layout.nodes and not supplies:
        yield Problem("layout", "nodes", "There is no supply node; add one where the pipes begin.")
    for extra in supplies[1:]:
        yield Problem(extra, "kind", f"There is a supply node already, {supplies[0]}; keep one.")


def _end_problems(plan: Plan) -> Iterator[Problem]:
    kinds = {node.id: node.kind for node in plan.layout.nodes}
    for run, refused in (("pipes", "controller"), ("cables", "supply")):
        for entity in getattr(plan.layout, run):
            for field, end in (("from", entity.from_), ("to", entity.to)):
                if end not in kinds:
                    yield Problem(entity.id, field, f"There is no node “{end}”.")
                elif kinds[end] == refused:
                    yield Problem(entity.id, field, f"{end} is a {refused}; no {run[:-1]} ends there.")
            if entity.from_ == entity.to:
                yield Problem(entity.id, "to", f"This {run[:-1]} begins and ends at {entity.to}.")


def _reference_problems(plan: Plan) -> Iterator[Problem]:
    areas = {area.id for area in plan.ground.areas}
    nodes = {node.id: node for node in plan.layout.nodes}
    for node in plan.layout.nodes:
        if isinstance(node, HeadNode) and node.area is not None and node.area not in areas:
            yield Problem(node.id, "area", f"There is no area “{node.area}”.")
    for case in plan.layout.cases:
        for zone in case.open:
            if not isinstance(nodes.get(zone), ValveNode | HeadNode):
                yield Problem(
                    case.label, "open", f"There is no zone “{zone}”; name a valve, or a head with its own."
                )
        if len(set(case.open)) < len(case.open):
            yield Problem(case.label, "open", "A zone is named twice.")


def _short_pipe_problems(plan: Plan) -> Iterator[Problem]:
    at = {node.id: node.at for node in plan.layout.nodes}
    for pipe in plan.layout.pipes:
        length_m = path_length((at[pipe.from_], *pipe.via, at[pipe.to]))
        if length_m < SHORTEST_PIPE_M:
            sentence = (
                f"This pipe is {length_m:.3f} m long; move its ends {SHORTEST_PIPE_M} m apart or join them."
            )
            yield Problem(pipe.id, "via", sentence)
