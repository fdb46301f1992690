"""Pipe by part in sticks or coils, and the couplings between them."""

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal

from hydraulics.catalogue import PipePart
from quoting.takeoff.assembly import FittingBook, assemble
from quoting.takeoff.bends import straights_and_bends
from quoting.takeoff.fittings import FitOut, Fitted
from quoting.takeoff.graph import LayoutGraph
from quoting.takeoff.quantities import Quantity, TakeoffSettings, decimal_of, distinct
from quoting.takeoff.stock import length_words, packs_for


@dataclass
class Run:
    """Straight pipe from fitting to fitting, of one or more pipes of the plan."""

    part: PipePart
    main: bool
    length_m: float = 0.0
    pipes: list[str] = field(default_factory=list)


def straight_runs(graph: LayoutGraph, through: set[str], settings: TakeoffSettings) -> tuple[Run, ...]:
    """The layout's pipe cut at fittings only; at a node in ``through`` the pipe goes on."""
    bits, ends = _bits(graph, settings)
    group = list(range(len(bits)))
    for node in through:
        one, two = (ends[arm.pipe, node] for arm in graph.arms[node])
        old, new = group[two], group[one]
        group = [new if g == old else g for g in group]
    runs: dict[int, Run] = {}
    for index, (pipe_id, length_m) in enumerate(bits):
        line = graph.lines[pipe_id]
        run = runs.setdefault(group[index], Run(line.part, line.main))
        run.length_m += length_m
        run.pipes.append(pipe_id)
    return tuple(runs.values())


def _bits(
    graph: LayoutGraph, settings: TakeoffSettings
) -> tuple[list[tuple[str, float]], dict[tuple[str, str], int]]:
    """Straight bits of every pipe, and which bit ends at which node."""
    bits: list[tuple[str, float]] = []
    ends: dict[tuple[str, str], int] = {}
    for pipe in graph.plan.layout.pipes:
        lengths, _ = straights_and_bends(graph.lines[pipe.id], settings)
        ends[pipe.id, pipe.from_] = len(bits)
        ends[pipe.id, pipe.to] = len(bits) + len(lengths) - 1
        bits += [(pipe.id, length_m) for length_m in lengths]
    return bits, ends


def couplings_of_run(run: Run) -> int:
    """Between whole sticks of one straight run; coils are joined by the total, not by the run."""
    if run.part.supplied != "stick":
        return 0
    return max(0, math.ceil(run.length_m / max(run.part.stock_m) - 1e-9) - 1)


def couplings(graph: LayoutGraph, runs: Iterable[Run]) -> Iterator[Fitted]:
    """Couplings within runs: sticks run by run, coils by the total of each part."""
    book = FittingBook(graph.parts)
    coiled: dict[str, list[Run]] = defaultdict(list)
    for run in runs:
        if run.part.supplied == "coil":
            coiled[run.part.code].append(run)
        for _ in range(couplings_of_run(run)):
            yield from _coupling(book, run, tuple(run.pipes))
    for same in coiled.values():
        total_m = sum(run.length_m for run in same)
        where = distinct(pipe for run in same for pipe in run.pipes)
        for _ in range(max(0, math.ceil(total_m / max(same[0].part.stock_m) - 1e-9) - 1)):
            yield from _coupling(book, same[0], where)


def _coupling(book: FittingBook, run: Run, where: tuple[str, ...]) -> Iterator[Fitted]:
    for placed in assemble(book, "coupling", [run.part, run.part]).fittings:
        yield Fitted(placed, where, run.main)


def pipe_quantities(
    graph: LayoutGraph, out: FitOut, headers_m: dict[str, float], settings: TakeoffSettings
) -> Iterator[Quantity]:
    """Pipe bought, by part. Rounded up to packs once for the whole job, after waste.

    ``headers_m`` is pipe for drip headers, by part, which the plan does not draw.
    """
    nipples = Counter(code for code, _ in out.nipples)
    by_part: dict[str, list[str]] = defaultdict(list)
    for pipe in graph.plan.layout.pipes:
        by_part[pipe.part].append(pipe.id)
    for code, pipes in by_part.items():
        drawn_m = sum(graph.lines[pipe].measure.length_m for pipe in pipes)
        extra_m = nipples[code] * settings.nipple_m + headers_m.get(code, 0.0)
        yield from _packed(graph.lines[pipes[0]].part, (drawn_m, extra_m), tuple(pipes), settings)


def _packed(
    part: PipePart, metres: tuple[float, float], where: tuple[str, ...], settings: TakeoffSettings
) -> Iterator[Quantity]:
    """One line per stock length that is bought; what the plan draws stands on the first."""
    drawn_m, extra_m = metres
    waste = settings.stick_waste if part.supplied == "stick" else settings.coil_waste
    packs = packs_for((drawn_m + extra_m) * float(1 + waste), part.stock_m)
    net = decimal_of(drawn_m)
    for stock_m, count in sorted(packs.items(), reverse=True):
        yield Quantity(
            kind="part",
            role="pipe",
            key=f"{part.code}@{stock_m:g}",
            part=part.code,
            description=_pack_words(part, stock_m),
            quantity=Decimal(count),
            unit=part.supplied,
            net=net,
            net_unit="m",
            pack=decimal_of(stock_m),
            where=where,
            how=f"{drawn_m:.1f} m drawn, {_extra_words(extra_m)}"
            f"{float(waste):.0%} waste, in {part.supplied}s of {length_words(stock_m)}",
        )
        net = Decimal(0)


def _pack_words(part: PipePart, stock_m: float) -> str:
    """The part with its length, said once: many labels end in the stick or coil that they come in."""
    if part.label.endswith(f" {part.supplied}") and len(part.stock_m) == 1:
        return part.label
    return f"{part.label.removesuffix(f', {part.supplied}')}, {length_words(stock_m)} {part.supplied}"


def _extra_words(extra_m: float) -> str:
    return f"{extra_m:.1f} m for nipples and headers, " if extra_m >= 0.05 else ""
