"""What the solver has to say about a choice of pipes: needs that it does not meet."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from hydraulics.friction import velocity_mps
from hydraulics.network import Case, Solution
from hydraulics.sizing.live import NO_NEED
from hydraulics.sizing.task import Candidate, OutletNeed, SizingTask
from hydraulics.solver import solve_cases

# rounding of the solver and of the program, in kPa, m/s and as a share
PRESSURE_KPA = 1e-6
RELATIVE = 1e-9


@dataclass(frozen=True)
class Shortfall:
    """One need that is not met. ``measured`` and ``limit`` in kPa, m/s or as a share of the pressure."""

    kind: Literal["pressure", "velocity", "spread"]
    case: str
    where: tuple[str, ...]
    measured: float
    limit: float

    @property
    def by(self) -> float:
        return abs(self.limit - self.measured)


def solve_choice(task: SizingTask, choice: Mapping[str, Candidate]) -> tuple[Solution, ...]:
    """Every case with those pipes. Raises as the solver does."""
    return solve_cases(task.sized(choice), task.cases)


def shortfalls(
    task: SizingTask, choice: Mapping[str, Candidate], solutions: tuple[Solution, ...]
) -> list[Shortfall]:
    found: list[Shortfall] = []
    for case, solution in zip(task.cases, solutions, strict=True):
        found += _pressures(task, case, solution)
        found += _velocities(choice, case, solution)
        found += _spreads(task, case, solution)
    return found


def outlet_kpa(task: SizingTask, solution: Solution) -> dict[str, float]:
    """Pressure at every emitter that runs, by its id."""
    return {e.id: solution.node_kpa[e.node] for e in task.network.emitters if e.id in solution.emitter_lpm}


def _pressures(task: SizingTask, case: Case, solution: Solution) -> Iterator[Shortfall]:
    for emitter, pressure in outlet_kpa(task, solution).items():
        least = task.needs.get(emitter, NO_NEED).least_kpa
        if pressure < least - PRESSURE_KPA:
            yield Shortfall("pressure", case.label, (emitter,), pressure, least)


def _velocities(choice: Mapping[str, Candidate], case: Case, solution: Solution) -> Iterator[Shortfall]:
    for pipe, candidate in choice.items():
        speed = velocity_mps(abs(solution.link_lpm.get(pipe, 0.0)), candidate.bore_mm)
        if speed > candidate.most_mps * (1 + RELATIVE):
            yield Shortfall("velocity", case.label, (pipe,), speed, candidate.most_mps)


def _spreads(task: SizingTask, case: Case, solution: Solution) -> Iterator[Shortfall]:
    groups: dict[str, list[tuple[float, str]]] = {}
    for emitter, pressure in outlet_kpa(task, solution).items():
        need: OutletNeed = task.needs.get(emitter, NO_NEED)
        if need.group:
            groups.setdefault(need.group, []).append((need.acting_kpa(pressure), emitter))
    for group, acting in groups.items():
        (low, lowest), (high, highest) = min(acting), max(acting)
        if high > 0 and (high - low) / high > task.spread_share + RELATIVE:
            where = (group, lowest, highest)
            yield Shortfall("spread", case.label, where, (high - low) / high, task.spread_share)
