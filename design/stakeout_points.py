"""Which points of a plan are set out: heads, valves, controllers, trench turns, sleeve ends."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
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
        places += _numbered("sleeve end", "E", _sleeve_ends(report), places, plan)
        places += _numbered("trench turn", "T", trench_turns(report.trench), places, plan)
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


def _sleeve_ends(report: CheckReport) -> list[XY]:
    return [point for sleeve in report.sleeves for point in (sleeve.path[0], sleeve.path[-1])]


def _numbered(kind: PointKind, letter: str, points: list[XY], taken: list[Place], plan: Plan) -> list[Place]:
    """Places where no other point stands already, numbered T1, T2 … or E1, E2 …"""
    used = {place.id for place in taken} | {mark.id for mark in plan.ground.marks}
    free = (name for name in (f"{letter}{n}" for n in count(1)) if name not in used)
    places: list[Place] = []
    for point in points:
        if all(math.dist(point, place.at) > _SAME_M for place in (*taken, *places)):
            places.append(Place(next(free), kind, "", point))
    return places


def _key(point: XY) -> XY:
    return (round(point[0], 3), round(point[1], 3))


def _turns(point: XY, others: list[XY]) -> bool:
    headings = {round(math.degrees(math.atan2(y - point[1], x - point[0])), 1) for x, y in others}
    if len(headings) != 2:
        return True
    one, two = headings
    return abs(180 - abs(one - two)) > TURN_DEG
