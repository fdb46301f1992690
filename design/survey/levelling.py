"""Heights of points from spots, falls and hand-level readings, with misclosures.

Height of instrument = known height + staff reading on it; height of a sighted point = height of
instrument − reading on it. Source: height-of-collimation method, textbook surveying, from memory.
Each point takes its height along the way of least likely error; every reading left over closes a
loop, whose misclosure is stated.
"""

import heapq
import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from design.report import XY
from design.survey.document import FallRow, LevelSetup, LevelSurvey

# common practice, no source: a height that somebody wrote down, and one sight of a hand level
SPOT_SIGMA_M = 0.01
SIGHT_SIGMA_M = 0.01
# common practice, no source: what sight or string lose by the metre; a per cent is read to a quarter
SIGMA_PER_M = 0.001
PER_CENT_SIGMA = 0.0025
# where no place tells how far apart two points are
_USUAL_WAY_M = 10.0
# common practice, no source: beyond twice its likely error a misclosure is taken for a mistake
MISTAKE_SHARE = 2.0


@dataclass(frozen=True)
class LevelledPoint:
    """``how`` names the reading that gave the height, ``after`` the point before it, if any."""

    name: str
    z_m: float
    error_m: float
    how: str
    after: str = ""
    at: XY | None = None


@dataclass(frozen=True)
class Misclosure:
    """A point reached twice: read along ``loop`` it would lie at ``other_m`` instead of ``z_m``."""

    point: str
    z_m: float
    other_m: float
    allowed_m: float
    loop: tuple[str, ...]
    row: str

    @property
    def difference_m(self) -> float:
        return self.other_m - self.z_m

    @property
    def apart_m(self) -> float:
        return abs(self.difference_m)

    @property
    def mistake(self) -> bool:
        return self.apart_m > self.allowed_m


@dataclass(frozen=True)
class RowProblem:
    """``row`` is the place in the document, such as ``falls-2`` or ``setups-0-sights-3``."""

    row: str
    sentence: str


@dataclass(frozen=True)
class LevelResult:
    """``assumed`` names a point taken as zero because no height at all was given, else empty."""

    points: Mapping[str, LevelledPoint] = field(default_factory=dict)
    misclosures: tuple[Misclosure, ...] = ()
    unreached: tuple[str, ...] = ()
    problems: tuple[RowProblem, ...] = ()
    assumed: str = ""

    @property
    def contradictions(self) -> tuple[Misclosure, ...]:
        """Misclosures beyond what reading errors explain."""
        return tuple(one for one in self.misclosures if one.mistake)


@dataclass(frozen=True)
class _Step:
    """``second`` lies ``rise_m`` above ``first``."""

    first: str
    second: str
    rise_m: float
    sigma_m: float
    row: str
    how: str

    def from_end(self, end: str) -> tuple[str, float]:
        """The other end, and how far it lies above this one."""
        return (self.second, self.rise_m) if end == self.first else (self.first, -self.rise_m)


def reduce_levels(
    levels: LevelSurvey, places: Mapping[str, XY], known: Mapping[str, float] | None = None
) -> LevelResult:
    """Heights [m] above the site's zero of all points that readings reach.

    ``places`` lets per cent become metres and gives each point its place; ``known`` holds heights
    from elsewhere. A row that gives nothing is named in ``problems`` and hides no other.
    """
    problems: list[RowProblem] = []
    steps = list(_falls(levels.falls, places, problems))
    steps += _sights(levels.setups, places, problems)
    given = _given(levels, known or {})
    assumed = ""
    if not given and steps:
        assumed = steps[0].first
        given = {assumed: LevelledPoint(assumed, 0.0, 0.0, "taken as zero")}
    points, used = _spread(given, steps)
    every = dict.fromkeys(name for step in steps for name in (step.first, step.second))
    return LevelResult(
        {name: _placed(point, places) for name, point in points.items()},
        (*_given_twice(levels, known or {}), *_loops(points, steps, used)),
        tuple(name for name in every if name not in points),
        tuple(problems),
        assumed,
    )


def _given(levels: LevelSurvey, known: Mapping[str, float]) -> dict[str, LevelledPoint]:
    given = {name: LevelledPoint(name, z_m, 0.0, "known") for name, z_m in known.items()}
    for spot in levels.spots:
        given.setdefault(spot.point, LevelledPoint(spot.point, spot.height.m, SPOT_SIGMA_M, "given"))
    return given


def _given_twice(levels: LevelSurvey, known: Mapping[str, float]) -> Iterator[Misclosure]:
    first: dict[str, float] = dict(known)
    for place, spot in enumerate(levels.spots):
        if spot.point in first:
            allowed_m = MISTAKE_SHARE * SPOT_SIGMA_M * math.sqrt(2)
            yield Misclosure(
                spot.point, first[spot.point], spot.height.m, allowed_m, (spot.point,), f"spots-{place}"
            )
        first.setdefault(spot.point, spot.height.m)


def _falls(falls: Sequence[FallRow], places: Mapping[str, XY], problems: list[RowProblem]) -> Iterator[_Step]:
    for place, fall in enumerate(falls):
        row, way_m = f"falls-{place}", _way(places, fall.first, fall.second)
        how = f"fall from {fall.first} to {fall.second}"
        if fall.first == fall.second:
            problems.append(RowProblem(row, f"A fall cannot run from {fall.first} to itself."))
        elif fall.fall is not None:
            sigma_m = SIGHT_SIGMA_M + SIGMA_PER_M * (way_m or _USUAL_WAY_M)
            yield _Step(fall.first, fall.second, -fall.fall.m, sigma_m, row, how)
        elif fall.fall_pct is None:
            problems.append(RowProblem(row, "Type the fall: a height, or per cent such as 2 %."))
        elif way_m is None:
            lost = fall.first if fall.first not in places else fall.second
            problems.append(
                RowProblem(
                    row, f"{lost} has no place yet, so per cent give no height. Place it, or type a height."
                )
            )
        else:
            sigma_m = SIGHT_SIGMA_M + PER_CENT_SIGMA * way_m
            yield _Step(fall.first, fall.second, -fall.fall_pct / 100 * way_m, sigma_m, row, how)


def _sights(
    setups: Sequence[LevelSetup], places: Mapping[str, XY], problems: list[RowProblem]
) -> Iterator[_Step]:
    for stand, setup in enumerate(setups):
        if not setup.sights:
            problems.append(RowProblem(f"setups-{stand}", f"Nothing was sighted from stand {stand + 1}."))
        for place, sight in enumerate(setup.sights):
            row = f"setups-{stand}-sights-{place}"
            if sight.point == setup.known:
                problems.append(RowProblem(row, f"{sight.point} cannot be levelled from itself."))
                continue
            # the stand is taken to be half-way: its two sights err independently
            half_m = (_way(places, setup.known, sight.point) or _USUAL_WAY_M) / 2
            sigma_m = math.sqrt(2) * (SIGHT_SIGMA_M + SIGMA_PER_M * half_m)
            rise_m = setup.known_reading.m - sight.reading.m
            yield _Step(setup.known, sight.point, rise_m, sigma_m, row, f"stand {stand + 1}")


def _way(places: Mapping[str, XY], first: str, second: str) -> float | None:
    return math.dist(places[first], places[second]) if first in places and second in places else None


def _spread(
    given: Mapping[str, LevelledPoint], steps: Sequence[_Step]
) -> tuple[dict[str, LevelledPoint], set[int]]:
    """Heights along the ways of least likely error, and the steps that they went by."""
    at: dict[str, list[tuple[int, _Step]]] = {}
    for number, step in enumerate(steps):
        at.setdefault(step.first, []).append((number, step))
        at.setdefault(step.second, []).append((number, step))
    points: dict[str, LevelledPoint] = {}
    used: set[int] = set()
    order = itertools.count()
    waiting = [(point.error_m, next(order), point, -1) for point in given.values()]
    heapq.heapify(waiting)
    while waiting:
        _, _, point, by = heapq.heappop(waiting)
        if point.name in points or (by >= 0 and point.name in given):
            continue
        points[point.name] = point
        if by >= 0:
            used.add(by)
        for number, step in at.get(point.name, ()):
            name, rise_m = step.from_end(point.name)
            error_m = math.hypot(point.error_m, step.sigma_m)
            reached = LevelledPoint(name, point.z_m + rise_m, error_m, step.how, point.name)
            heapq.heappush(waiting, (error_m, next(order), reached, number))
    return points, used


def _loops(
    points: Mapping[str, LevelledPoint], steps: Sequence[_Step], used: set[int]
) -> Iterator[Misclosure]:
    for number, step in enumerate(steps):
        if number in used or step.first not in points:
            continue
        first, second = points[step.first], points[step.second]
        loop, error_m = _loop(points, step)
        allowed_m = MISTAKE_SHARE * error_m
        yield Misclosure(step.second, second.z_m, first.z_m + step.rise_m, allowed_m, loop, step.row)


def _loop(points: Mapping[str, LevelledPoint], step: _Step) -> tuple[tuple[str, ...], float]:
    """The points of the loop that a spare step closes, and the likely error round it."""
    there, back = _way_back(points, step.first), _way_back(points, step.second)
    shared = next((name for name in there if name in back), None)
    if shared is None:  # between two given heights: from one to the other
        errors = (points[step.first].error_m, points[step.second].error_m, step.sigma_m)
        return (*reversed(there), *back), math.hypot(*errors)
    there, back = there[: there.index(shared) + 1], back[: back.index(shared) + 1]
    shared_m = points[shared].error_m
    squares = sum(points[name].error_m ** 2 - shared_m**2 for name in (step.first, step.second))
    return (*reversed(there), *back), math.sqrt(max(0.0, squares) + step.sigma_m**2)


def _way_back(points: Mapping[str, LevelledPoint], name: str) -> list[str]:
    way = [name]
    while points[way[-1]].after:
        way.append(points[way[-1]].after)
    return way


def _placed(point: LevelledPoint, places: Mapping[str, XY]) -> LevelledPoint:
    return LevelledPoint(point.name, point.z_m, point.error_m, point.how, point.after, places.get(point.name))
