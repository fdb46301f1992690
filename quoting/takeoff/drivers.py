"""Counts that nobody buys but that take time."""

from collections.abc import Iterator
from decimal import Decimal

from quoting.takeoff.cables import stations
from quoting.takeoff.graph import LayoutGraph
from quoting.takeoff.quantities import Quantity


def driver_quantities(graph: LayoutGraph) -> Iterator[Quantity]:
    rotors = [node.id for node, part in graph.heads if part.family == "rotor"]
    others = [node.id for node, part in graph.heads if part.family != "rotor"]
    inlets = [node.id for node, _ in graph.drip_inlets]
    valves = [valve.id for valve in graph.valves]
    yield from _count("set_rotor", "gear rotors to set", rotors)
    yield from _count("set_head", "heads to set", others)
    yield from _count("stake_point", "points to stake out", [*rotors, *others, *inlets, *valves])
    yield from _count("zone", "zones to flush and adjust", list(stations(graph)))


def _count(role: str, words: str, places: list[str]) -> Iterator[Quantity]:
    if places:
        count = Decimal(len(places))
        how = "counted in the plan"
        yield Quantity("driver", role, role, words, count, "each", count, "each", tuple(places), how)
