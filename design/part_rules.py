"""Whether the parts that a plan names are in the parts book, and of the kind their place needs."""

from collections.abc import Iterator

from design.document import Plan
from design.problems import Problem
from hydraulics.catalogue import (
    BackflowPart,
    CablePart,
    Catalogue,
    ControllerPart,
    DripPart,
    HeadPart,
    MeterPart,
    PipePart,
    SundryPart,
    ValvePart,
)

KINDS_BY_NODE: dict[str, tuple[type, ...]] = {
    "valve": (ValvePart,),
    "head": (HeadPart, DripPart),
    "controller": (ControllerPart,),
}
NAMES = {"valve": "a valve", "head": "a head or a drip line", "controller": "a controller"}


def check_parts(plan: Plan, catalogue: Catalogue) -> list[Problem]:
    """Unknown part codes, parts of the wrong kind, and drip inlets without an area."""
    return [
        *_supply_parts(plan, catalogue),
        *_node_parts(plan, catalogue),
        *_run_parts(plan, catalogue),
        *_case_parts(plan, catalogue),
    ]


def own_valve_heads(plan: Plan, catalogue: Catalogue) -> frozenset[str]:
    """Ids of the heads whose part carries its own valve."""
    return frozenset(
        node.id
        for node in plan.layout.nodes
        if node.kind == "head" and getattr(catalogue.get(node.part), "own_valve", False)
    )


def _problem(
    catalogue: Catalogue, entity: str, field: str, code: str, kinds: tuple[type, ...], name: str
) -> Iterator[Problem]:
    part = catalogue.get(code)
    if part is None:
        yield Problem(entity, field, f"There is no part “{code}” in the parts book.")
    elif not isinstance(part, kinds):
        yield Problem(entity, field, f"Part “{code}” is a {part.kind}; this place needs {name}.")


def _supply_parts(plan: Plan, catalogue: Catalogue) -> Iterator[Problem]:
    if plan.supply.meter is not None:
        yield from _problem(catalogue, "supply", "meter", plan.supply.meter, (MeterPart,), "a meter")
    if plan.supply.backflow is not None:
        yield from _problem(
            catalogue, "supply", "backflow", plan.supply.backflow, (BackflowPart,), "a backflow preventer"
        )


def _node_parts(plan: Plan, catalogue: Catalogue) -> Iterator[Problem]:
    for node in plan.layout.nodes:
        if node.kind == "supply" or node.kind == "junction":
            continue
        yield from _problem(catalogue, node.id, "part", node.part, KINDS_BY_NODE[node.kind], NAMES[node.kind])
        if node.kind == "head" and isinstance(catalogue.get(node.part), DripPart) and node.area is None:
            yield Problem(node.id, "area", "A drip line needs the area that it is laid in.")


def _run_parts(plan: Plan, catalogue: Catalogue) -> Iterator[Problem]:
    for pipe in plan.layout.pipes:
        yield from _problem(catalogue, pipe.id, "part", pipe.part, (PipePart,), "a pipe")
    for cable in plan.layout.cables:
        yield from _problem(catalogue, cable.id, "part", cable.part, (CablePart,), "a cable")
    for sleeve in plan.layout.sleeves:
        if sleeve.part is not None:
            yield from _problem(catalogue, sleeve.id, "part", sleeve.part, (PipePart, SundryPart), "a sleeve")


def _case_parts(plan: Plan, catalogue: Catalogue) -> Iterator[Problem]:
    own = own_valve_heads(plan, catalogue)
    heads = {node.id: node.part for node in plan.layout.nodes if node.kind == "head"}
    for case in plan.layout.cases:
        for zone in case.open:
            if zone in heads and zone not in own and heads[zone] in catalogue:
                yield Problem(
                    case.label, "open", f"{zone} has no valve of its own; name the valve that opens it."
                )
