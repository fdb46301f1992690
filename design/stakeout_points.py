"""Which points of a plan are set out: heads, valves, controllers, trench turns, sleeve ends."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import count, pairwise

from design.document import Plan
from design.report import XY, CheckReport, TrenchStretch
from design.stakeout import Place, PointKind, Stake, buildings_of, stake_point

# common practice, no source
TURN_DEG = 10.0  # a bend that a string line shows
_SAME_M = 0.10  # closer than that, one peg serves both


def stake_out(plan: Plan, report: CheckReport | None = None) -> tuple[Stake, ...]:
    """Every point to set out; trench turns and sleeve ends only with a report."""
    places = list(_devices(plan))
    if report is not None:
        taken = _names(plan, report)
        ends = _sleeve_ends(report, taken)
        places += [Place(ends[at], "sleeve end", "", at) for at in _unserved(ends, places)]
        turns = _unserved(trench_turns(report.trench), places)
        places += [
            Place(name, "trench turn", "", at) for at, name in zip(turns, _numbers("T", taken), strict=False)
        ]
    buildings = buildings_of(plan)
    return tuple(stake_point(place, plan.ground.marks, buildings) for place in places)


def trench_turns(stretches: Iterable[TrenchStretch]) -> list[XY]:
    """Where trenches end, branch, or bend by more than 10°, in the order in which they are listed."""
    ways: dict[XY, list[XY]] = defaultdict(list)
    for stretch in stretches:
        for start, end in pairwise(stretch.path):
            if math.dist(start, end) > 0.001:
                ways[_key(start)].append(end)
                ways[_key(end)].append(start)
    return [point for point, others in ways.items() if _turns(point, others)]


def _devices(plan: Plan) -> Iterator[Place]:
    kinds: tuple[PointKind, ...] = ("head", "valve", "controller")
    for kind in kinds:
        for node in plan.layout.nodes:
            if node.kind == kind:
                yield Place(node.id, kind, node.label, node.at)


def _names(plan: Plan, report: CheckReport) -> set[str]:
    """Every name that a person may read on the plan: no peg is called the same."""
    layout = plan.layout
    things = (*layout.nodes, *layout.pipes, *layout.cables, *plan.ground.marks, *report.sleeves)
    return {thing.id for thing in things}


def _sleeve_ends(report: CheckReport, taken: set[str]) -> dict[XY, str]:
    """The ends of sleeve S are Sa and Sb, so that the peg says where it belongs."""
    ends: dict[XY, str] = {}
    for sleeve in report.sleeves:
        for letter, point in (("a", sleeve.path[0]), ("b", sleeve.path[-1])):
            name = f"{sleeve.id}{letter}"
            ends.setdefault(point, f"{name}-end" if name in taken else name)
    return ends


def _numbers(letter: str, taken: set[str]) -> Iterator[str]:
    return (name for name in (f"{letter}{n}" for n in count(1)) if name not in taken)


def _unserved(points: Iterable[XY], places: Sequence[Place]) -> list[XY]:
    """Those where no other point stands already: there one peg serves both."""
    kept: list[XY] = []
    for point in points:
        if all(math.dist(point, other) > _SAME_M for other in (*(place.at for place in places), *kept)):
            kept.append(point)
    return kept


def _key(point: XY) -> XY:
    return (round(point[0], 3), round(point[1], 3))


def _turns(point: XY, others: list[XY]) -> bool:
    headings = {round(math.degrees(math.atan2(y - point[1], x - point[0])), 1) for x, y in others}
    if len(headings) != 2:
        return True
    one, two = headings
    return abs(180 - abs(one - two)) > TURN_DEG
