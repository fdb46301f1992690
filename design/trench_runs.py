"""Stretches of trench joined into the runs that a crew digs in one go.

The check cuts trenches wherever anything joins them. Whoever digs wants to hear only where
depth, method or soil change, and where trenches branch.
"""

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace

from design.report import XY, TrenchStretch

# common practice, no source: a sharper corner is where a new trench is begun
CORNER_DEG = 60.0


def trench_runs(stretches: Iterable[TrenchStretch]) -> tuple[TrenchStretch, ...]:
    """Like stretches that meet end to end, no third one between and no sharp corner, as one.

    Numbered ``run-1``, ``run-2`` … in the order in which their first stretches stand.
    """
    runs = list(stretches)
    joined = True
    while joined:
        joined = _join_one(runs)
    return tuple(replace(run, id=f"run-{number}") for number, run in enumerate(runs, start=1))


def _join_one(runs: list[TrenchStretch]) -> bool:
    """Join the first two that belong together, in place; whether there were any."""
    ends: dict[XY, list[int]] = defaultdict(list)
    for place, run in enumerate(runs):
        for point in (run.path[0], run.path[-1]):
            ends[_key(point)].append(place)
    for point, places in ends.items():
        if len(places) == 2 and places[0] != places[1]:
            one, two = (runs[place] for place in places)
            first, second = _towards(one, point), _towards(two, point)[::-1]
            if _alike(one, two) and _bend_deg(first, second) <= CORNER_DEG:
                runs[places[0]] = _joined(one, two, (*first, *second[1:]))
                del runs[places[1]]
                return True
    return False


def _alike(one: TrenchStretch, two: TrenchStretch) -> bool:
    names = ("method", "role", "soil", "surface", "why")
    same_depth = math.isclose(one.depth_m, two.depth_m, abs_tol=0.005)
    return same_depth and all(getattr(one, name) == getattr(two, name) for name in names)


def _towards(run: TrenchStretch, end: XY) -> tuple[XY, ...]:
    """The path turned so that it ends there."""
    return run.path if _key(run.path[-1]) == end else run.path[::-1]


def _bend_deg(first: tuple[XY, ...], second: tuple[XY, ...]) -> float:
    before, after = _heading(first[-2], first[-1]), _heading(second[0], second[1])
    return abs((math.degrees(after - before) + 180) % 360 - 180)


def _heading(start: XY, end: XY) -> float:
    return math.atan2(end[1] - start[1], end[0] - start[0])


def _joined(one: TrenchStretch, two: TrenchStretch, path: tuple[XY, ...]) -> TrenchStretch:
    return replace(
        one,
        path=path,
        length_m=one.length_m + two.length_m,
        pipes=tuple(dict.fromkeys((*one.pipes, *two.pipes))),
        cables=tuple(dict.fromkeys((*one.cables, *two.cables))),
    )


def _key(point: XY) -> XY:
    return (round(point[0], 3), round(point[1], 3))
