"""Control cable by whole runs, its cores, and the connectors."""

from collections import Counter, defaultdict, deque
from collections.abc import Iterator
from decimal import Decimal

from design.report import CableResult
from hydraulics.catalogue import CablePart, SundryPart
from quoting.takeoff.graph import LayoutGraph
from quoting.takeoff.quantities import Quantity, TakeoffNote, TakeoffSettings, decimal_of, plain, whole
from quoting.takeoff.stock import Cut, Piece, cut_whole, length_words


def cable_quantities(graph: LayoutGraph, settings: TakeoffSettings) -> Iterator[Quantity]:
    """No splice is buried: each run comes whole from one length, or is a made-up length of its own."""
    for part, runs in _by_part(graph):
        if part.fixed_length_m:
            yield _made_up(part, runs)
        else:
            yield from _cut_runs(part, runs, settings)


def _by_part(graph: LayoutGraph) -> Iterator[tuple[CablePart, list[CableResult]]]:
    groups: dict[str, list[CableResult]] = defaultdict(list)
    for cable in graph.report.cables:
        groups[cable.part].append(cable)
    for code, runs in groups.items():
        yield graph.parts.need(code, CablePart), runs


def _made_up(part: CablePart, runs: list[CableResult]) -> Quantity:
    length = decimal_of(part.fixed_length_m or 0)
    return Quantity(
        kind="part",
        role="cable",
        key=part.code,
        part=part.code,
        description=part.label,
        quantity=Decimal(len(runs)),
        unit="each",
        net=_metres(runs),
        net_unit="m",
        pack=length,
        where=tuple(run.id for run in runs),
        how=f"one made-up length of {plain(length)} m from device to device",
    )


def _cut_runs(part: CablePart, runs: list[CableResult], settings: TakeoffSettings) -> Iterator[Quantity]:
    pieces = [_piece(run, part, settings) for run in runs]
    cuts, too_long = cut_whole(pieces, part.stock_m)
    counts = Counter(cut.stock_m for cut in cuts)
    net, by_id = {run.id: run.length_m for run in runs}, len(runs)
    for stock_m in sorted(counts, reverse=True):
        where = _cut_from(cuts, stock_m)
        yield Quantity(
            kind="part",
            role="cable",
            key=f"{part.code}@{stock_m:g}",
            part=part.code,
            description=f"{part.label}, {length_words(stock_m)} length",
            quantity=Decimal(counts[stock_m]),
            unit="length",
            net=decimal_of(sum(net[place] for place in where)),
            net_unit="m",
            pack=decimal_of(stock_m),
            where=where,
            how=f"{len(where)} of {by_id} runs, each whole, with {settings.cable_allowance:.0%} allowed",
        )
    if too_long:
        yield _unobtainable(part, too_long)


def _unobtainable(part: CablePart, pieces: tuple[Piece, ...]) -> Quantity:
    count = Decimal(len(pieces))
    return Quantity(
        kind="part",
        role="cable",
        key=f"missing/{part.code}",
        description=f"{part.label} in a length of {max(p.length_m for p in pieces):.1f} m, not sold so long",
        quantity=count,
        unit="length",
        net=decimal_of(sum(piece.length_m for piece in pieces)),
        net_unit="m",
        where=tuple(piece.where for piece in pieces),
        how="longer than any length in stock, and a splice may not be buried",
    )


def _piece(run: CableResult, part: CablePart, settings: TakeoffSettings) -> Piece:
    """The run with its allowance, where the longest stock length leaves room for one."""
    longest = max(part.stock_m)
    allowed = run.length_m * float(1 + settings.cable_allowance)
    return Piece(max(run.length_m, min(allowed, longest)), run.id)


def _cut_from(cuts: tuple[Cut, ...], stock_m: float) -> tuple[str, ...]:
    return tuple(piece.where for cut in cuts if cut.stock_m == stock_m for piece in cut.pieces)


def _metres(runs: list[CableResult]) -> Decimal:
    return decimal_of(sum(run.length_m for run in runs))


def stations(graph: LayoutGraph) -> tuple[str, ...]:
    """Ids of what a controller opens: valves, and heads that carry their own."""
    return tuple(graph.topology.zones)


def connector_quantity(graph: LayoutGraph, settings: TakeoffSettings) -> Iterator[Quantity]:
    """One per hot wire and one per common in each box; two per device on a cable from device
    to device, and two more at a three-way."""
    boxes = graph.manifolds(settings.manifold_reach_m)
    devices = [s for s in stations(graph) if s not in {valve.id for valve in graph.valves}]
    ends = Counter(end for cable in graph.plan.layout.cables for end in (cable.from_, cable.to))
    in_boxes = sum(len(group) + 1 if len(group) <= 4 else 2 * len(group) for group in boxes)
    on_path = sum(2 + (2 if ends[device] > 2 else 0) for device in devices)
    net = Decimal(in_boxes + on_path)
    if not net:
        return
    parts = graph.parts.values()
    part = next((p for p in parts if isinstance(p, SundryPart) and p.role == "connector"), None)
    yield Quantity(
        kind="part",
        role="connector",
        key=part.code if part else "missing/connector",
        part=part.code if part else None,
        description=part.label if part else "sealed cable connector, not in the parts book",
        quantity=whole(net * (1 + settings.connector_spare)),
        unit="each",
        net=net,
        net_unit="each",
        where=stations(graph),
        how="valves and a common in each box, two per device on a device-to-device cable, and spares",
    )


def core_notes(graph: LayoutGraph, settings: TakeoffSettings) -> Iterator[TakeoffNote]:
    """Cables with fewer cores than the stations beyond them, a common and the spares need."""
    valves = {valve.id for valve in graph.valves}
    for cable_id, beyond in _stations_beyond(graph).items():
        part = graph.parts.need(_cable_part(graph, cable_id), CablePart)
        count = len(beyond & valves)
        need = count + 1 + settings.spare_cores
        if count and part.cores > 2 and part.cores < need:
            yield TakeoffNote(
                "cable.cores.few",
                (cable_id,),
                f"This cable has {part.cores} cores; {count} valves, a common and "
                f"{settings.spare_cores} spares need {need}.",
            )


def _cable_part(graph: LayoutGraph, cable_id: str) -> str:
    return next(cable.part for cable in graph.plan.layout.cables if cable.id == cable_id)


def _stations_beyond(graph: LayoutGraph) -> dict[str, set[str]]:
    """For each cable reached from a controller, the devices at its far end and beyond."""
    beyond: dict[str, set[str]] = {}
    parent: dict[str, tuple[str, str]] = {}
    seen = {node.id for node in graph.controllers}
    queue = deque(seen)
    while queue:
        here = queue.popleft()
        for cable in graph.plan.layout.cables:
            there = {cable.from_: cable.to, cable.to: cable.from_}.get(here)
            if there and there not in seen:
                seen.add(there)
                parent[there] = (here, cable.id)
                queue.append(there)
    for device in parent:
        step = device
        while step in parent:
            step, cable_id = parent[step]
            beyond.setdefault(cable_id, set()).add(device)
    return beyond
