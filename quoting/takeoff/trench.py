"""Trench by method, depth and soil; spoil; sleeves and bores by crossing; turf to put back."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from decimal import Decimal

from shapely import LineString, Polygon
from shapely.ops import unary_union

from design.report import CheckReport, SleeveMeasure, TrenchStretch
from hydraulics.catalogue import SundryPart
from quoting.takeoff.graph import LayoutGraph
from quoting.takeoff.quantities import Quantity, TakeoffNote, TakeoffSettings, decimal_of, distinct, whole

METHOD_WORDS = {"machine": "machine trench", "hand": "hand-dug trench", "bore": "bored"}


def trench_quantities(report: CheckReport) -> Iterator[Quantity]:
    """Metres as the report measured them: a shared trench once, whatever lies in it."""
    groups: dict[tuple[str, Decimal, str], list[TrenchStretch]] = defaultdict(list)
    for stretch in report.trench:
        groups[stretch.method, decimal_of(stretch.depth_m, 2), stretch.soil].append(stretch)
    for (method, depth_m, soil), stretches in sorted(groups.items()):
        net = decimal_of(sum(stretch.length_m for stretch in stretches))
        yield Quantity(
            kind="ground",
            role=f"trench_{method}",
            key=f"trench/{method}/{depth_m}/{soil}",
            description=f"{METHOD_WORDS[method]}, {depth_m} m deep, {_soil_words(soil)}",
            quantity=net,
            unit="m",
            net=net,
            net_unit="m",
            where=_entities(stretches),
            how="union of the routes: pipes and cables that share a trench count once",
        )


def _soil_words(soil: str) -> str:
    return soil.replace("_", " ") or "soil not known"


def spoil_quantities(
    graph: LayoutGraph, report: CheckReport, settings: TakeoffSettings
) -> Iterator[Quantity]:
    """Loose volume dug, and the part of it that does not go back."""
    dug = [stretch for stretch in report.trench if stretch.method != "bore"]
    if not dug:
        return
    loose = sum((_loose_m3(stretch, settings) for stretch in dug), Decimal(0))
    pipe = decimal_of(sum(_pipe_m3(graph, stretch) for stretch in dug), 6)
    left = pipe * settings.bulking_else + loose * settings.uncompacted
    where = _entities(dug)
    for role, volume, words, how in (
        ("spoil", loose, "soil dug, loose", "width × depth × length × bulking by soil"),
        ("spoil_left", left, "soil left over", "volume of the pipes, bulked, and what does not compact"),
    ):
        net = volume.quantize(Decimal("0.01"))
        yield Quantity("ground", role, role, words, net, "m3", net, "m3", where, how)


def _loose_m3(stretch: TrenchStretch, settings: TakeoffSettings) -> Decimal:
    volume = decimal_of(settings.width_m(stretch.method) * stretch.depth_m * stretch.length_m, 6)
    return volume * settings.bulking.get(stretch.soil, settings.bulking_else)


def _pipe_m3(graph: LayoutGraph, stretch: TrenchStretch) -> float:
    outside = (graph.lines[pipe].part.outside_mm / 1000 for pipe in stretch.pipes if pipe in graph.lines)
    return sum(math.pi * d**2 / 4 * stretch.length_m for d in outside)


def turf_quantities(graph: LayoutGraph, report: CheckReport, settings: TakeoffSettings) -> Iterator[Quantity]:
    """Turf lifted and laid again: a strip wider than the trench, where it lies in turf."""
    shapes = [Polygon(a.outline, a.holes) for a in graph.plan.ground.areas if a.cover == "turf"]
    turf = unary_union(shapes) if shapes else Polygon()
    strips = [
        (stretch, turf.intersection(LineString(stretch.path)).length)
        for stretch in report.trench
        if stretch.method != "bore" and len(stretch.path) > 1
    ]
    in_turf = [(stretch, metres) for stretch, metres in strips if metres > 0]
    square_m = sum(m * (settings.width_m(s.method) + settings.turf_extra_m) for s, m in in_turf)
    if square_m:
        net = decimal_of(square_m, 1)
        how = f"trench in turf × (its width + {settings.turf_extra_m:.2f} m)"
        where = _entities(stretch for stretch, _ in in_turf)
        yield Quantity(
            "ground", "turf", "turf", "turf lifted and laid again", net, "m2", net, "m2", where, how
        )


def crossing_quantities(
    graph: LayoutGraph, report: CheckReport, settings: TakeoffSettings
) -> Iterator[Quantity]:
    """For each new crossing a duct with its ends, cut whole, and the bore it goes through."""
    for crossing in report.sleeves:
        if crossing.existing:
            continue
        yield _duct(graph, crossing, settings)
        role = "bore_short" if crossing.bored_m <= settings.short_bore_m else "bore_long"
        words = f"bore under {crossing.surface or 'a hard surface'}, {crossing.bored_m:.1f} m"
        one = Decimal(1)
        how = f"up to {settings.short_bore_m:g} m is a short bore"
        where = distinct((crossing.id, crossing.surface, *crossing.pipes, *crossing.cables))
        yield Quantity("ground", role, f"bore/{crossing.id}", words, one, "each", one, "each", where, how)


def _duct(graph: LayoutGraph, crossing: SleeveMeasure, settings: TakeoffSettings) -> Quantity:
    need_mm = settings.sleeve_bore_ratio * _contents_mm(graph, crossing, settings)
    part = _chosen_duct(graph, crossing.id) or _least_duct(graph, need_mm)
    net = decimal_of(crossing.sleeve_m, 2)
    return Quantity(
        kind="part",
        role="sleeve",
        key=f"sleeve/{crossing.id}",
        part=part.code if part else None,
        description=part.label if part else f"duct of at least {need_mm:.0f} mm, not in the parts book",
        quantity=whole(net / decimal_of(part.yield_per_unit)) if part else net,
        unit=part.unit if part else "m",
        net=net,
        net_unit="m",
        where=distinct((crossing.id, crossing.surface, *crossing.pipes, *crossing.cables)),
        how=f"{crossing.bored_m:.2f} m crossed and its ends; at least {need_mm:.0f} mm wide",
    )


def _contents_mm(graph: LayoutGraph, crossing: SleeveMeasure, settings: TakeoffSettings) -> float:
    pipes = sum(graph.lines[pipe].part.outside_mm for pipe in crossing.pipes if pipe in graph.lines)
    return pipes + len(crossing.cables) * settings.cable_outside_mm


def _chosen_duct(graph: LayoutGraph, sleeve_id: str) -> SundryPart | None:
    code = next((s.part for s in graph.plan.layout.sleeves if s.id == sleeve_id), None)
    part = graph.parts.get(code) if code else None
    return part if isinstance(part, SundryPart) else None


def _least_duct(graph: LayoutGraph, need_mm: float) -> SundryPart | None:
    ducts = [p for p in graph.parts.values() if isinstance(p, SundryPart) and p.role == "sleeve"]
    wide = [(size, part) for part in ducts if (size := _size_mm(part.size)) and size >= need_mm]
    return min(wide, key=lambda pair: pair[0])[1] if wide else None


def _size_mm(size: str) -> float | None:
    try:
        return float(size)
    except ValueError:
        return None


def duct_notes(graph: LayoutGraph, report: CheckReport, settings: TakeoffSettings) -> Iterator[TakeoffNote]:
    """Ducts that the plan chose narrower than pipes and cables want to be drawn through."""
    for crossing in report.sleeves:
        part = None if crossing.existing else _chosen_duct(graph, crossing.id)
        wide_mm = _size_mm(part.size) if part else None
        need_mm = settings.sleeve_bore_ratio * _contents_mm(graph, crossing, settings)
        if part and wide_mm and wide_mm < need_mm:
            words = (
                f"{part.label} at {crossing.id} is tight: what lies in it wants {need_mm:.0f} mm. "
                "Choose a wider duct in the plan."
            )
            yield TakeoffNote("duct.tight", (crossing.id,), words)


def trench_notes(report: CheckReport) -> Iterator[TakeoffNote]:
    unknown = [stretch for stretch in report.trench if not stretch.soil]
    if unknown:
        words = "The soil of some trench is not known; labour counts it as clay until the visit says."
        yield TakeoffNote("trench.soil.unknown", _entities(unknown), words)


def _entities(stretches: Iterable[TrenchStretch]) -> tuple[str, ...]:
    return distinct(e for s in stretches for e in (*s.pipes, *s.cables, s.surface))
