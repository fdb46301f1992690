"""Crossings under hard surfaces: how long to bore, how long the duct is."""

from collections import defaultdict
from collections.abc import Sequence

from design.document import Sleeve
from design.geometry import XY, distance_to_path
from design.report import SleeveMeasure
from design.trenches import Dig, chains, straightened
from hydraulics.limits import Limits

# common practice, no source: a drawn duct is taken for the crossing that it lies this close to
SAME_PLACE_M = 0.3


def measure_sleeves(
    digs: Sequence[Dig], drawn: Sequence[Sleeve], limits: Limits
) -> tuple[SleeveMeasure, ...]:
    """One crossing for each connected set of bored pieces under one surface."""
    by_surface: dict[str, list[Dig]] = defaultdict(list)
    for dig in digs:
        if dig.method == "bore":
            by_surface[dig.surface].append(dig)
    found = [(surface, group) for surface, bored in by_surface.items() for group in _connected(bored)]
    return tuple(
        _measure(f"crossing-{place}", surface, group, drawn, limits)
        for place, (surface, group) in enumerate(found, 1)
    )


def duct_at(dig: Dig, drawn: Sequence[Sleeve]) -> Sleeve | None:
    """The drawn duct that the piece lies in."""
    return next((s for s in drawn if distance_to_path(dig.middle, s.path) <= SAME_PLACE_M), None)


def _measure(
    name: str, surface: str, group: list[Dig], drawn: Sequence[Sleeve], limits: Limits
) -> SleeveMeasure:
    duct = duct_at(max(group, key=lambda dig: dig.length_m), drawn)
    bored = sum(dig.length_m for dig in group)
    path = max(chains(group), key=len)
    return SleeveMeasure(
        id=duct.id if duct else name,
        surface=surface,
        path=straightened(path),
        bored_m=bored,
        sleeve_m=bored + 2 * limits.sleeve_end_m,
        existing=bool(duct and duct.existing),
        pipes=tuple(sorted({pipe for dig in group for pipe in dig.pipes})),
        cables=tuple(sorted({cable for dig in group for cable in dig.cables})),
    )


def _connected(digs: list[Dig]) -> list[list[Dig]]:
    at: dict[XY, list[Dig]] = defaultdict(list)
    for dig in digs:
        at[dig.start].append(dig)
        at[dig.end].append(dig)
    left = {id(dig): dig for dig in digs}
    groups = []
    while left:
        group, queue = [], [next(iter(left.values()))]
        while queue:
            dig = queue.pop()
            if left.pop(id(dig), None) is not None:
                group.append(dig)
                queue += [*at[dig.start], *at[dig.end]]
        groups.append(group)
    return groups
