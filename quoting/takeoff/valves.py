"""Valves, boxes, isolation, backflow, controllers, filters and heads: devices, piece by piece."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from decimal import Decimal

from design.document import ValveNode
from hydraulics.catalogue import Part, SundryPart
from quoting.takeoff.assembly import Assembly, FittingBook, assemble
from quoting.takeoff.fittings import FitOut
from quoting.takeoff.graph import Arm, LayoutGraph
from quoting.takeoff.quantities import Quantity, TakeoffSettings


def device_quantities(graph: LayoutGraph) -> Iterator[Quantity]:
    """Everything of the plan that is a part at a node, one for one, without spares."""
    heads = [(node.id, node.part) for node, _ in graph.heads]
    yield from _each(graph, "head", heads, "one per head in the plan")
    yield from _each(graph, "valve", [(v.id, v.part) for v in graph.valves], "one per valve in the plan")
    controllers = [(node.id, node.part) for node in graph.controllers]
    yield from _each(graph, "controller", controllers, "one per controller in the plan")
    backflow, supply = graph.plan.supply.backflow, graph.topology.supply
    if backflow:
        where = [(supply or "supply", backflow)]
        yield from _each(graph, "backflow", where, "at the connection; type and height by local rule")


def box_quantities(graph: LayoutGraph, settings: TakeoffSettings) -> Iterator[Quantity]:
    """The smallest box that holds each group of valves, and one of the smallest for each isolation."""
    boxes = sorted(sundries(graph, "valve_box"), key=lambda part: part.yield_per_unit)
    groups = graph.manifolds(settings.manifold_reach_m)
    wanted = [(lot[0].id, _box_for(lot, boxes)) for group in groups for lot in _lots(group, boxes)]
    smallest = boxes[0].code if boxes else ""
    wanted += [(served[0].id, smallest) for served, _ in isolated(graph, settings)]
    how = "by number of valves in the group, and one for each isolation valve"
    yield from _each(graph, "valve_box", wanted, how)


def isolated(graph: LayoutGraph, settings: TakeoffSettings) -> list[tuple[tuple[ValveNode, ...], Arm]]:
    """What each isolation valve serves, and the pipe that it cuts: every manifold has its own,
    valves that stand alone have one together at the connection.
    """
    groups = graph.manifolds(settings.manifold_reach_m)
    manifolds = [group for group in groups if len(group) >= settings.isolate_from_valves]
    alone = tuple(valve for group in groups if group not in manifolds for valve in group)
    connection = [arm for arm in graph.arms.get(graph.topology.supply or "", ()) if arm.main]
    found = [(group, _widest(_main_arms(graph, group))) for group in manifolds]
    if alone:
        found.append((alone, _widest(connection or _main_arms(graph, alone))))
    return [(served, feed) for served, feed in found if feed]


def _main_arms(graph: LayoutGraph, group: tuple[ValveNode, ...]) -> list[Arm]:
    return [arm for valve in group for arm in graph.arms[valve.id] if arm.main]


def _widest(arms: list[Arm]) -> Arm | None:
    return max(arms, key=lambda arm: arm.part.outside_mm) if arms else None


def _lots(group: tuple[ValveNode, ...], boxes: list[SundryPart]) -> list[tuple[ValveNode, ...]]:
    most = int(boxes[-1].yield_per_unit) if boxes else 4
    return [group[i : i + most] for i in range(0, len(group), most)]


def _box_for(lot: tuple[ValveNode, ...], boxes: list[SundryPart]) -> str:
    return next((box.code for box in boxes if box.yield_per_unit >= len(lot)), "")


def isolation_quantities(graph: LayoutGraph, out: FitOut, settings: TakeoffSettings) -> Iterator[Quantity]:
    """One isolation valve for each of ``isolated``. It cuts the main: two ends, two adapters."""
    book, wanted = FittingBook(graph.parts), list[tuple[str, str]]()
    stocked = {part.size: part.code for part in sundries(graph, "isolation_valve")}
    for served, feed in isolated(graph, settings):
        size = feed.part.size
        out.put(Assembly(list(assemble(book, "adapter", [feed.part], size).fittings) * 2), (feed.pipe,), True)
        out.cuts.append(feed.pipe)
        wanted.append((served[0].id, stocked.get(size, "")))
    how = "one before each manifold; valves that stand alone share one at the connection"
    yield from _each(graph, "isolation_valve", wanted, how)


def filter_quantities(graph: LayoutGraph) -> Iterator[Quantity]:
    """A filter with regulator for every valve that feeds drip line."""
    inlets = {node.id for node, _ in graph.drip_inlets}
    fed = [zone.id for zone in graph.topology.zones.values() if inlets & set(zone.heads)]
    stocked = sundries(graph, "filter_regulator")
    code = stocked[0].code if stocked else ""
    yield from _each(graph, "filter_regulator", [(zone, code) for zone in fed], "one per drip valve")


def sundries(graph: LayoutGraph, role: str) -> list[SundryPart]:
    return [p for p in graph.parts.values() if isinstance(p, SundryPart) and p.role == role]


def _each(graph: LayoutGraph, role: str, pairs: Iterable[tuple[str, str]], how: str) -> Iterator[Quantity]:
    """One quantity per part code, from (place, part code) pairs."""
    groups: dict[str, list[str]] = defaultdict(list)
    for place, code in pairs:
        groups[code].append(place)
    for code, places in groups.items():
        part: Part | None = graph.parts.get(code)
        count = Decimal(len(places))
        yield Quantity(
            kind="part",
            role=role,
            key=part.code if part else f"missing/{role}/{code}",
            part=part.code if part else None,
            description=part.label
            if part
            else f"{role.replace('_', ' ')} {code}, not in the parts book".strip(),
            quantity=count,
            unit="each",
            net=count,
            net_unit="each",
            where=tuple(dict.fromkeys(places)),
            how=how,
        )


def _lacking(role: str, code: str) -> str:
    words = role.replace("_", " ")
    return f"{words} {code}, not in the parts book" if code else f"{words}, not in the parts book"
