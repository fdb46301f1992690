"""What is connected to what: the main, the zones, the role of each pipe, the cases.

A zone is what one valve opens. A head whose part carries its own valve is a zone of one
and may sit straight on the main, which may be a loop.
"""

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from design.document import Case, HeadNode, Node, Pipe, Plan, SupplyNode, ValveNode
from design.problems import Problem

Role = Literal["main", "lateral"]


@dataclass(frozen=True)
class Zone:
    """``id`` is that of the valve, or of the head that carries its own."""

    id: str
    label: str
    heads: tuple[str, ...]
    pipes: tuple[str, ...]
    nodes: frozenset[str]  # behind the valve


@dataclass(frozen=True)
class Topology:
    nodes: dict[str, Node]
    pipes: dict[str, Pipe]
    pipes_at: dict[str, tuple[str, ...]]
    supply: str | None
    main_nodes: frozenset[str]
    roles: dict[str, Role]
    zones: dict[str, Zone]
    loose_heads: tuple[str, ...]  # on the main, with no valve at all

    def other_end(self, pipe_id: str, node_id: str) -> str:
        pipe = self.pipes[pipe_id]
        return pipe.to if pipe.from_ == node_id else pipe.from_

    def zone_of_head(self) -> dict[str, str]:
        return {head: zone.id for zone in self.zones.values() for head in zone.heads}


def build_topology(plan: Plan, own_valve_heads: frozenset[str] = frozenset()) -> Topology:
    """The topology of a plan that ``load_plan`` accepted.

    ``own_valve_heads`` are ids of heads whose part carries its own valve.
    """
    nodes = {node.id: node for node in plan.layout.nodes}
    pipes = {pipe.id: pipe for pipe in plan.layout.pipes}
    pipes_at = _pipes_at(nodes, pipes.values())
    supply = next((node.id for node in nodes.values() if isinstance(node, SupplyNode)), None)
    main = frozenset(_reach(supply, nodes, pipes, pipes_at)) if supply else frozenset()
    zones = _valve_zones(nodes, pipes, pipes_at, main)
    in_zone = {pipe for zone in zones.values() for pipe in zone.pipes}
    behind_valve = {head for zone in zones.values() for head in zone.heads}
    heads = [node.id for node in nodes.values() if isinstance(node, HeadNode)]
    on_main = [head for head in heads if head in main and head not in behind_valve]
    for head in on_main:
        if head in own_valve_heads:
            zones[head] = Zone(head, nodes[head].label or head, (head,), (), frozenset((head,)))
    return Topology(
        nodes=nodes,
        pipes=pipes,
        pipes_at=pipes_at,
        supply=supply,
        main_nodes=main,
        roles={pipe: "lateral" if pipe in in_zone else "main" for pipe in pipes},
        zones=zones,
        loose_heads=tuple(head for head in on_main if head not in own_valve_heads),
    )


def _pipes_at(nodes: dict[str, Node], pipes: Iterable[Pipe]) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {node: [] for node in nodes}
    for pipe in pipes:
        found[pipe.from_].append(pipe.id)
        found[pipe.to].append(pipe.id)
    return {node: tuple(ids) for node, ids in found.items()}


def _reach(
    start: str, nodes: dict[str, Node], pipes: dict[str, Pipe], pipes_at: dict[str, tuple[str, ...]]
) -> set[str]:
    """Nodes that water reaches from one node without passing a valve (the valves met included)."""
    found, queue = {start}, deque([start])
    while queue:
        node = queue.popleft()
        if isinstance(nodes[node], ValveNode):
            continue
        for pipe_id in pipes_at[node]:
            pipe = pipes[pipe_id]
            other = pipe.to if pipe.from_ == node else pipe.from_
            if other not in found:
                found.add(other)
                queue.append(other)
    return found


def _valve_zones(
    nodes: dict[str, Node],
    pipes: dict[str, Pipe],
    pipes_at: dict[str, tuple[str, ...]],
    main: frozenset[str],
) -> dict[str, Zone]:
    zones = {}
    for valve in (node for node in nodes.values() if isinstance(node, ValveNode)):
        behind: set[str] = set()
        for pipe_id in pipes_at[valve.id]:
            pipe = pipes[pipe_id]
            other = pipe.to if pipe.from_ == valve.id else pipe.from_
            if other not in main and other not in behind:
                behind |= _reach(other, nodes, pipes, pipes_at)
        behind.discard(valve.id)
        reached = behind | {valve.id}
        inside = tuple(
            pipe.id
            for pipe in pipes.values()
            if pipe.from_ in reached and pipe.to in reached and (pipe.from_ in behind or pipe.to in behind)
        )
        heads = tuple(node for node in nodes if node in behind and isinstance(nodes[node], HeadNode))
        zones[valve.id] = Zone(valve.id, valve.label or valve.id, heads, inside, frozenset(behind))
    return zones


def connection_problems(topology: Topology) -> list[Problem]:
    """Nodes that no pipe leads to, and zones that are not behind exactly one valve."""
    problems = []
    connected = _reach_through_valves(topology)
    for node_id, node in topology.nodes.items():
        if node.kind == "controller" or node.kind == "supply":
            continue
        if not topology.pipes_at[node_id]:
            problems.append(
                Problem(node_id, "at", f"No pipe ends at this {node.kind}; connect it or remove it.")
            )
        elif topology.supply and node_id not in connected:
            problems.append(Problem(node_id, "at", f"No pipe leads from the supply to this {node.kind}."))
    return problems or _valve_order_problems(topology)


def _reach_through_valves(topology: Topology) -> set[str]:
    if topology.supply is None:
        return set()
    found, queue = {topology.supply}, deque([topology.supply])
    while queue:
        node = queue.popleft()
        for pipe_id in topology.pipes_at[node]:
            other = topology.other_end(pipe_id, node)
            if other not in found:
                found.add(other)
                queue.append(other)
    return found


def _valve_order_problems(topology: Topology) -> list[Problem]:
    problems, fed_by = [], dict[str, str]()
    for zone in topology.zones.values():
        valve = topology.nodes[zone.id]
        if not isinstance(valve, ValveNode):
            continue
        if zone.id not in topology.main_nodes:
            sentence = "This valve lies behind another valve; a plan has one valve between supply and head."
            problems.append(Problem(zone.id, "at", sentence))
        for node in zone.nodes:
            if node in fed_by and fed_by[node] != zone.id:
                sentence = f"Water comes here through {fed_by[node]} and {zone.id}; cut one of the ways."
                problems.append(Problem(node, "at", sentence))
            fed_by[node] = zone.id
    return problems


def cases_of(plan: Plan, topology: Topology) -> tuple[Case, ...]:
    """The plan's cases; with none given, each zone with an outlet runs alone."""
    if plan.layout.cases:
        return tuple(plan.layout.cases)
    return tuple(Case(label=zone.id, open=[zone.id]) for zone in topology.zones.values() if zone.heads)


def count_loops(topology: Topology) -> int:
    """Independent loops of the pipes: E - V + 1 for one connected network."""
    if not topology.pipes:
        return 0
    joined = sum(1 for pipes in topology.pipes_at.values() if pipes)
    return len(topology.pipes) - joined + 1


def path_between(topology: Topology, start: str, end: str) -> tuple[str, ...]:
    """Node ids along the way with fewest pipes; empty if there is none."""
    before: dict[str, str] = {start: ""}
    queue = deque([start])
    while queue and end not in before:
        node = queue.popleft()
        for pipe_id in topology.pipes_at[node]:
            other = topology.other_end(pipe_id, node)
            if other not in before:
                before[other] = node
                queue.append(other)
    path, node = list[str](), end if end in before else ""
    while node:
        path.append(node)
        node = before[node]
    return tuple(reversed(path))
