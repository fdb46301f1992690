"""One watering day: which case runs when, one at a time, others running while one soaks."""

import heapq
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class CaseRun:
    """The cycles of a case on one day in whole minutes, and the pause that it needs between them."""

    case: str
    cycles_min: tuple[int, ...]
    soak_min: int = 0

    @property
    def minutes(self) -> int:
        return sum(self.cycles_min)


@dataclass(frozen=True)
class Start:
    """Minutes are counted from the day's first start."""

    case: str
    begins_min: int
    minutes: int


@dataclass(frozen=True)
class WateringDay:
    starts: tuple[Start, ...]

    @property
    def total_min(self) -> int:
        """From the first start to the last stop, pauses included."""
        return max((start.begins_min + start.minutes for start in self.starts), default=0)


def order_day(runs: Sequence[CaseRun]) -> WateringDay:
    """Starts in the order of time. Of the cases that may run, the one with most left goes first.

    Greedy, so that the total is not proven to be the shortest; it is never longer than all
    cycles one after another with every soak waited for.
    """
    waiting = [(0, place) for place, run in enumerate(runs) if run.cycles_min]
    may_run: list[tuple[int, int]] = []
    done = [0] * len(runs)
    starts, now = [], 0
    while waiting or may_run:
        while waiting and waiting[0][0] <= now:
            place = heapq.heappop(waiting)[1]
            heapq.heappush(may_run, (-_left(runs[place], done[place]), place))
        if not may_run:
            now = waiting[0][0]
            continue
        place = heapq.heappop(may_run)[1]
        run = runs[place]
        minutes = run.cycles_min[done[place]]
        starts.append(Start(run.case, now, minutes))
        now += minutes
        done[place] += 1
        if done[place] < len(run.cycles_min):
            heapq.heappush(waiting, (now + run.soak_min, place))
    return WateringDay(tuple(starts))


def _left(run: CaseRun, done: int) -> int:
    """Minutes from the next start to the last stop, if nothing else ran."""
    rest = run.cycles_min[done:]
    return sum(rest) + run.soak_min * (len(rest) - 1)
