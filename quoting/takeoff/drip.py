"""Drip line in rows over an area, with its connectors, flush point, pins and headers."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from design.document import Area, HeadNode
from design.drip import lay_drip
from hydraulics.catalogue import DripPart, FittingPart, SundryPart
from quoting.takeoff.graph import LayoutGraph
from quoting.takeoff.quantities import (
    Quantity,
    TakeoffNote,
    TakeoffSettings,
    decimal_of,
    distinct,
    plain,
    whole,
)


@dataclass(frozen=True)
class DripBed:
    """Rows of one area, across its shorter way; metres of line and of the two headers."""

    inlet: HeadNode
    part: DripPart
    rows: int
    row_ends: int
    line_m: float
    header_m: float


def drip_beds(graph: LayoutGraph) -> tuple[DripBed, ...]:
    areas = {area.id: area for area in graph.plan.ground.areas}
    return tuple(
        measure_bed(node, part, areas[node.area])
        for node, part in graph.drip_inlets
        if node.area is not None and node.area in areas
    )


def measure_bed(inlet: HeadNode, part: DripPart, area: Area) -> DripBed:
    laid = lay_drip(area, part)
    pieces = [piece for row in laid.rows for piece in row]
    rows = sum(1 for row in laid.rows if row)
    header_m = 2 * max(0, rows - 1) * part.row_spacing_m
    return DripBed(inlet, part, rows, 2 * len(pieces), laid.length_m, header_m)


def drip_notes(graph: LayoutGraph) -> Iterator[TakeoffNote]:
    """Inlets of drip line that no area of the plan belongs to: nothing can be counted for them."""
    known = {area.id for area in graph.plan.ground.areas}
    lost = tuple(node.id for node, _ in graph.drip_inlets if node.area not in known)
    if lost:
        words = "No drip line is counted here: say in the plan which area it is laid in."
        yield TakeoffNote("drip.area.missing", lost, words)


def header_metres(graph: LayoutGraph, beds: tuple[DripBed, ...]) -> dict[str, float]:
    """Pipe for headers, by the part that arrives at the inlet."""
    found: dict[str, float] = defaultdict(float)
    for bed in beds:
        arms = graph.arms[bed.inlet.id]
        if arms:
            found[arms[0].part.code] += bed.header_m
    return dict(found)


def drip_quantities(
    graph: LayoutGraph, beds: tuple[DripBed, ...], settings: TakeoffSettings
) -> Iterator[Quantity]:
    by_part: dict[str, list[DripBed]] = defaultdict(list)
    for bed in beds:
        by_part[bed.part.code].append(bed)
    for same in by_part.values():
        yield _line(same, settings)
    if beds:
        yield _fitting(graph, "drip_connector", sum(bed.row_ends for bed in beds), beds, "one per row end")
        yield _fitting(graph, "flush_point", len(beds), beds, "one per bed, at its low end")
        yield from _pins_and_vents(graph, beds, settings)


def _line(beds: list[DripBed], settings: TakeoffSettings) -> Quantity:
    part = beds[0].part
    net = decimal_of(sum(bed.line_m for bed in beds))
    coil = decimal_of(max(part.stock_m))
    return Quantity(
        kind="part",
        role="drip_line",
        key=part.code,
        part=part.code,
        description=part.label,
        quantity=whole(net * (1 + settings.drip_waste) / coil),
        unit="coil",
        net=net,
        net_unit="m",
        pack=coil,
        where=_places(beds),
        how=f"{sum(bed.rows for bed in beds)} rows, {settings.drip_waste:.0%} waste, "
        f"rounded up once for the job to coils of {plain(coil)} m",
    )


def _fitting(graph: LayoutGraph, role: str, count: int, beds: tuple[DripBed, ...], how: str) -> Quantity:
    parts = graph.parts.values()
    part = next((p for p in parts if isinstance(p, FittingPart) and p.role == role), None)
    label = role.replace("_", " ")
    return Quantity(
        kind="part",
        role=role,
        key=part.code if part else f"missing/{role}",
        part=part.code if part else None,
        description=part.label if part else f"{label} for drip line, not in the parts book",
        quantity=Decimal(count),
        unit="each",
        net=Decimal(count),
        net_unit="each",
        where=_places(beds),
        how=how,
    )


def _pins_and_vents(
    graph: LayoutGraph, beds: tuple[DripBed, ...], settings: TakeoffSettings
) -> Iterator[Quantity]:
    sundries = [part for part in graph.parts.values() if isinstance(part, SundryPart)]
    pin = next((part for part in sundries if part.role == "pin"), None)
    vent = next((part for part in sundries if part.code == settings.air_vent), None)
    pins = whole(decimal_of(sum(bed.line_m for bed in beds)) * settings.drip_pins_per_m)
    places = _places(beds)
    yield Quantity(
        kind="part",
        role="pin",
        key=pin.code if pin else "missing/pin",
        part=pin.code if pin else None,
        description=pin.label if pin else "pins for drip line, not in the parts book",
        quantity=whole(pins / decimal_of(pin.yield_per_unit)) if pin else pins,
        unit=pin.unit if pin else "each",
        net=pins,
        net_unit="each",
        where=places,
        how=f"{plain(settings.drip_pins_per_m)} per metre of drip line",
    )
    if vent:
        each, count, how = "each", Decimal(len(beds)), "one per bed, at its high point"
        yield Quantity(
            "part", "air_vent", vent.code, vent.label, count, each, count, each, places, how, vent.code
        )


def _places(beds: tuple[DripBed, ...] | list[DripBed]) -> tuple[str, ...]:
    return distinct(place for bed in beds for place in (bed.inlet.id, bed.inlet.area or ""))
