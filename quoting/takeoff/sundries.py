"""Fittings counted by part with their spares, and what goes with them: swing joints, clamps,
cement, tape, gravel.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from decimal import Decimal

from hydraulics.catalogue import PipePart, SundryPart
from quoting.takeoff.assembly import FittingBook, Opening
from quoting.takeoff.fittings import Fitted
from quoting.takeoff.graph import LayoutGraph
from quoting.takeoff.quantities import Quantity, TakeoffSettings, decimal_of, distinct, plain, whole
from quoting.takeoff.valves import sundries

ONE = Decimal(1)
# mL of cement per joint up to that outside diameter in mm; common practice, no source
CEMENT_ML = ((22.0, 5), (27.0, 7), (36.0, 11), (51.0, 16), (float("inf"), 24))


def fitting_quantities(
    graph: LayoutGraph, fitted: Iterable[Fitted], settings: TakeoffSettings
) -> Iterator[Quantity]:
    """Fittings by role and part, with spares: one of a kind up to ten, then a share."""
    groups: dict[tuple[str, str, tuple[Opening, ...]], list[Fitted]] = defaultdict(list)
    for fitting in fitted:
        placed = fitting.placed
        groups[placed.role, placed.part or "", placed.openings].append(fitting)
    for (role, code, openings), same in sorted(groups.items()):
        part = graph.parts.get(code)
        net = len(same)
        ports = " + ".join(f"{joint} {size}" for joint, size in openings)
        yield Quantity(
            kind="part",
            role=role,
            key=f"{role}/{code}" if part else f"missing/{role}/{ports}",
            part=part.code if part else None,
            description=part.label if part else f"{role.replace('_', ' ')} {ports}, not in the parts book",
            quantity=Decimal(net + _spares(net, settings)),
            unit="each",
            net=Decimal(net),
            net_unit="each",
            where=distinct(place for fitting in same for place in fitting.where),
            how=f"{net} counted place by place, {_spares(net, settings)} spare",
        )


def _spares(net: int, settings: TakeoffSettings) -> int:
    if net <= 10:
        return settings.spare_fittings_to_ten
    return int(whole(Decimal(net) * settings.spare_fittings_share))


def swing_joint_quantities(graph: LayoutGraph) -> Iterator[Quantity]:
    """One per head, of the head's inlet size, without spares."""
    book, groups = FittingBook(graph.parts), defaultdict[str, list[str]](list)
    for node, part in graph.heads:
        groups[part.inlet].append(node.id)
    for inlet, places in groups.items():
        placed = book.find("swing_joint", [("thread", inlet)] * 2)
        joint = graph.parts[placed.part] if placed and placed.part else None
        count = Decimal(len(places))
        yield Quantity(
            kind="part",
            role="swing_joint",
            key=joint.code if joint else f"missing/swing_joint/{inlet}",
            part=joint.code if joint else None,
            description=joint.label if joint else f"swing joint {inlet}, not in the parts book",
            quantity=count,
            unit="each",
            net=count,
            net_unit="each",
            where=tuple(places),
            how="one per head",
        )


def joining_quantities(
    graph: LayoutGraph, fitted: list[Fitted], settings: TakeoffSettings
) -> Iterator[Quantity]:
    """Clamps, cement, primer and thread tape for the sockets of these fittings."""
    yield from _clamps(graph, fitted, settings)
    yield from _cement(graph, fitted, settings)
    threads = sum(joint == "thread" for f in fitted for joint, _ in f.placed.openings)
    count = Decimal(threads + len(graph.heads))
    rolls = Decimal(settings.threads_per_roll)
    places = _with_joint(fitted, "thread")
    yield from _by_yield(graph, ("thread_tape", "threads"), (count, rolls), places)


def _clamps(graph: LayoutGraph, fitted: list[Fitted], settings: TakeoffSettings) -> Iterator[Quantity]:
    """One per insert end, two above 32 mm or under constant pressure."""
    stocked = {part.size: part for part in sundries(graph, "clamp")}
    outside = _outside_by_opening(graph)
    counts: Counter[str] = Counter()
    for fitting in fitted:
        for opening in fitting.placed.openings:
            if opening[0] == "insert":
                wide = outside.get(opening, 0.0) > settings.clamp_double_above_mm
                counts[opening[1]] += 2 if wide or fitting.main else 1
    for size, count in sorted(counts.items()):
        how = "one per insert end; two on the main and above 32 mm"
        yield _sundry(stocked.get(size), "clamp", Decimal(count), (_with_joint(fitted, "insert"), how), size)


def _outside_by_opening(graph: LayoutGraph) -> dict[Opening, float]:
    pipes = (part for part in graph.parts.values() if isinstance(part, PipePart))
    return {(part.joint, part.size): part.outside_mm for part in pipes}


def _cement(graph: LayoutGraph, fitted: list[Fitted], settings: TakeoffSettings) -> Iterator[Quantity]:
    """Tins by volume per joint and size, and by joints per tin if the part says; the larger counts."""
    outside = _outside_by_opening(graph)
    joints = [o for f in fitted for o in f.placed.openings if o[0] == "solvent"]
    if not joints:
        return
    millilitres = Decimal(sum(_cement_ml(outside.get(opening, 0.0)) for opening in joints))
    count, places = Decimal(len(joints)), _with_joint(fitted, "solvent")
    for role, volume in (("cement", millilitres), ("primer", millilitres / 2)):
        part = next(iter(sundries(graph, role)), None)
        by_volume = whole(volume / settings.cement_tin_ml)
        by_joints = (
            whole(count / decimal_of(part.yield_per_unit)) if part and part.yield_per_unit > 1 else ONE
        )
        how = f"{len(joints)} joints, {volume:.0f} mL by size; at least one tin"
        tins = max(by_volume, by_joints, ONE)
        yield _sundry(part, role, count, (places, how), quantity=tins)


def _cement_ml(outside_mm: float) -> int:
    return next(volume for limit, volume in CEMENT_ML if outside_mm <= limit)


def ground_sundries(graph: LayoutGraph, boxes: Decimal, settings: TakeoffSettings) -> Iterator[Quantity]:
    """Warning tape along the trench of the main, gravel under the boxes, a rain sensor if wanted."""
    main = [stretch for stretch in graph.report.trench if stretch.role == "main" and stretch.method != "bore"]
    metres = decimal_of(sum(stretch.length_m for stretch in main), 1)
    pipes = distinct(pipe for stretch in main for pipe in stretch.pipes)
    yield from _by_yield(graph, ("warning_tape", "m"), (metres, Decimal(1)), pipes)
    gravel = boxes * settings.gravel_per_box_m3
    if gravel:
        how = f"{settings.gravel_per_box_m3} m3 per box"
        valves = tuple(valve.id for valve in graph.valves)
        part = next(iter(sundries(graph, "gravel")), None)
        yield _sundry(part, "gravel", gravel, (valves, how), quantity=gravel, unit="m3")
    sensor = graph.parts.get(settings.rain_sensor)
    if isinstance(sensor, SundryPart):
        where = tuple(node.id for node in graph.controllers)
        yield _sundry(sensor, "rain_sensor", Decimal(1), (where, "one for the controller"))


def _by_yield(
    graph: LayoutGraph, names: tuple[str, str], amounts: tuple[Decimal, Decimal], where: tuple[str, ...]
) -> Iterator[Quantity]:
    """Units of a sundry for so much of what it serves; the part's own yield if it says one."""
    (role, served), (need, default_yield) = names, amounts
    if not need:
        return
    part = next(iter(sundries(graph, role)), None)
    each = decimal_of(part.yield_per_unit) if part and part.yield_per_unit > 1 else default_yield
    per = f"{plain(each)} m" if served == "m" else plain(each)
    how = f"{plain(need)} {served}, {per} per {part.unit if part else 'unit'}"
    yield _sundry(part, role, need, (where, how), quantity=whole(need / each))


def _sundry(
    part: SundryPart | None,
    role: str,
    net: Decimal,
    told: tuple[tuple[str, ...], str],
    size: str = "",
    quantity: Decimal | None = None,
    unit: str = "each",
) -> Quantity:
    words = " ".join((role.replace("_", " "), size)).strip()
    return Quantity(
        kind="part",
        role=role,
        key=part.code if part else f"missing/{role}/{size}",
        part=part.code if part else None,
        description=part.label if part else f"{words}, not in the parts book",
        quantity=net if quantity is None else quantity,
        unit=part.unit if part else unit,
        net=net,
        net_unit={"thread_tape": "threads", "warning_tape": "m", "gravel": "m3"}.get(role, "each"),
        where=told[0],
        how=told[1],
    )


def _with_joint(fitted: list[Fitted], joint: str) -> tuple[str, ...]:
    return distinct(p for f in fitted if any(j == joint for j, _ in f.placed.openings) for p in f.where)
