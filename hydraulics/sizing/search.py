"""The least-cost choice of pipes, and the proof of it.

The program of ``model.py`` admits every choice that meets the needs, so its least cost is a lower
bound. Its answer is solved with the true flows. If all needs are met, nothing can cost less. If
not, this one choice is forbidden in the case that failed, the lines are sharpened at the flows
found, and the program is solved again: each round keeps the bound valid and excludes only what is
known to fail, so it ends with the least cost, or with the proof that nothing meets the needs.
"""

import math
import time
from collections.abc import Mapping, Sequence
from dataclasses import replace

from hydraulics.errors import HydraulicsError
from hydraulics.network import Solution
from hydraulics.sizing.first_answer import (
    Choice,
    cut_from_the_ends,
    keeps_order,
    narrow_down,
    widest_choice,
)
from hydraulics.sizing.live import live_case
from hydraulics.sizing.model import SizingModel
from hydraulics.sizing.order import feeding_pairs
from hydraulics.sizing.proving import Shortfall, shortfalls, solve_choice
from hydraulics.sizing.result import NetworkSizing, Outcome
from hydraulics.sizing.task import Candidate, SizingTask

# HiGHS takes this much of a cost to be the same
SAME_COST = 1e-6
# links times candidates times cases beyond which no program is built
MOST_MODES = 60_000
# share of the time that the first answer may take
FIRST_SHARE = 0.3


def size_network(
    task: SizingTask, present: Mapping[str, Candidate] | None = None, seconds: float = 20.0
) -> NetworkSizing:
    """The least-cost choice. ``present`` is kept where nothing that meets the needs is cheaper.

    Raises HydraulicsError where the network itself cannot be solved.
    """
    return _Search(task, seconds).run(dict(present or {}))


class _Search:
    def __init__(self, task: SizingTask, seconds: float) -> None:
        self.task = task
        self.began = time.monotonic()
        self.until = self.began + seconds
        self.pairs = feeding_pairs(task.network)
        self.cases = [live_case(task, case) for case in task.cases]
        self.best: Choice | None = None
        self.cost = math.inf
        self.first_cost: float | None = None
        self.bound = self._bound_by_velocity()
        self.rounds = 0
        self.worst: tuple[Shortfall, ...] = ()

    def run(self, present: Choice) -> NetworkSizing:
        widest = widest_choice(self.task, self.pairs)
        if widest is None:
            return self._end("impossible")
        self.worst = tuple(self._faults(widest)[0])
        if any(case.is_hopeless for case in self.cases):
            return self._end("impossible")
        self._first_answer(present, widest)
        modes = sum(len(link.modes) for case in self.cases for link in case.links)
        if modes > MOST_MODES:
            return self._end("good" if self.best else "open")
        return self._end(self._prove())

    def _first_answer(self, present: Choice, widest: Choice) -> None:
        """The cheapest that shrinking finds, from what is there now and from the widest."""
        until = self.began + FIRST_SHARE * (self.until - self.began)
        starts = [widest]
        if present.keys() == widest.keys() and keeps_order(self.task, self.pairs, present):
            starts.insert(0, present)
        for start in starts:
            if self._is_good(start):
                self._keep(start)
                for shrink in (cut_from_the_ends, narrow_down):
                    self._keep(shrink(self.task, self.pairs, start, self._is_still_good, until))
        self.first_cost = self.cost if self.best else None

    def _prove(self) -> Outcome:
        model = SizingModel(self.task, self.cases, self.pairs)
        if self.best is not None:
            model.at_most(self.cost + SAME_COST)
        while time.monotonic() < self.until:
            self.rounds += 1
            answer = model.solve(self.until - time.monotonic())
            if answer.state == "infeasible":
                return self._settled()
            self.bound = max(self.bound, answer.bound)
            if self.bound >= self.cost - SAME_COST:
                return self._settled()
            if answer.values is None:
                break
            choice = model.choice(answer)
            faults, solutions = self._faults(choice)
            if not faults:
                self._keep(choice)
            if answer.state == "out of time":
                break
            if not faults:
                return self._settled()
            self._exclude(model, choice, faults, solutions)
        return "good" if self.best is not None else "open"

    def _settled(self) -> Outcome:
        if self.best is None:
            return "impossible"
        self.bound = self.cost
        return "least"

    def _exclude(
        self,
        model: SizingModel,
        choice: Choice,
        faults: Sequence[Shortfall],
        solutions: Sequence[Solution],
    ) -> None:
        failed = {fault.case for fault in faults}
        for case, solution in zip(self.cases, solutions, strict=True):
            if case.case.label in failed:
                model.forbid(case, choice)
                model.sharpen(case, solution.link_lpm)

    def _keep(self, choice: Choice) -> None:
        cost = self.task.cost(choice)
        if cost < self.cost - SAME_COST:
            self.best, self.cost = choice, cost

    def _is_good(self, choice: Choice) -> bool:
        try:
            return not self._faults(choice)[0]
        except HydraulicsError:
            return False

    def _is_still_good(self, choice: Choice, changed: str) -> bool:
        """Of a choice that was good until one pipe changed: only the cases that use it are asked."""
        cases = tuple(live.case for live in self.cases if changed in live.sized)
        try:
            return not cases or not self._faults(choice, replace(self.task, cases=cases))[0]
        except HydraulicsError:
            return False

    def _faults(
        self, choice: Mapping[str, Candidate], task: SizingTask | None = None
    ) -> tuple[list[Shortfall], tuple[Solution, ...]]:
        asked = task or self.task
        solutions = solve_choice(asked, choice)
        return shortfalls(asked, choice, solutions), solutions

    def _bound_by_velocity(self) -> float:
        """Every pipe as cheap as the least flow in it lets it be."""
        length = self.task.length_m
        allowed = {pipe: set(range(len(found))) for pipe, found in self.task.candidates.items()}
        for case in self.cases:
            for link in case.links:
                if link.id in allowed:
                    allowed[link.id] &= {mode.candidate for mode in link.modes if mode.candidate is not None}
        return sum(
            length[pipe]
            * min((self.task.candidates[pipe][place].cost_per_m for place in places), default=0.0)
            for pipe, places in allowed.items()
        )

    def _end(self, outcome: Outcome) -> NetworkSizing:
        best = self.best or {}
        solutions = solve_choice(self.task, best) if outcome in ("least", "good") else ()
        return NetworkSizing(
            outcome=outcome,
            choice=dict(best),
            cost=self.cost if self.best else 0.0,
            lower_bound=min(self.bound, self.cost),
            shortfalls=() if self.best else self.worst,
            solutions=solutions,
            rounds=self.rounds,
            seconds=time.monotonic() - self.began,
            first_cost=self.first_cost,
        )
