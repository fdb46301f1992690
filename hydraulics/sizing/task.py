"""What a sizing starts from: a network, its cases, what each pipe may be, what each outlet needs."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise

from hydraulics.errors import HydraulicsError
from hydraulics.network import Case, CurveLink, Network, PipeLink, PowerLink


class SizingError(HydraulicsError):
    """The sizing cannot start; the message says what it lacks."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A pipe that may be laid: bore [mm], Hazen–Williams C, price per metre, greatest velocity [m/s]."""

    code: str
    bore_mm: float
    c: float
    cost_per_m: float
    most_mps: float = math.inf


@dataclass(frozen=True, slots=True)
class OutletNeed:
    """Least pressure [kPa] at an emitter whenever it runs.

    Outlets of one ``group`` must not lie too far apart in the pressure that acts in them, which a
    regulator holds at ``held_kpa``.
    """

    least_kpa: float
    group: str = ""
    held_kpa: float | None = None

    def acting_kpa(self, pressure_kpa: float) -> float:
        return pressure_kpa if self.held_kpa is None else min(pressure_kpa, self.held_kpa)


@dataclass(frozen=True)
class SizingTask:
    """Choose one candidate for each pipe of ``candidates``; all other links stay as they are.

    ``spread_share`` is the greatest spread inside a group: highest less lowest acting pressure, over
    the highest; 1 asks for nothing. Emitters without a need only ask for a pressure of zero or more.
    """

    network: Network
    cases: tuple[Case, ...]
    candidates: Mapping[str, tuple[Candidate, ...]]
    needs: Mapping[str, OutletNeed] = field(default_factory=dict)
    spread_share: float = 1.0

    def __post_init__(self) -> None:
        _refuse_bad(self)

    @property
    def length_m(self) -> dict[str, float]:
        return {link.id: link.length_m for link in self.network.links if isinstance(link, PipeLink)}

    def cost(self, choice: Mapping[str, Candidate]) -> float:
        """Price of the chosen pipes by their length, without those that are not chosen here."""
        length = self.length_m
        return sum(candidate.cost_per_m * length[pipe] for pipe, candidate in choice.items())

    def sized(self, choice: Mapping[str, Candidate]) -> Network:
        """The network with those pipes in it."""
        links = tuple(
            replace(link, bore_mm=choice[link.id].bore_mm, c=choice[link.id].c)
            if isinstance(link, PipeLink) and link.id in choice
            else link
            for link in self.network.links
        )
        return replace(self.network, links=links)


def _refuse_bad(task: SizingTask) -> None:
    if len(task.network.sources) != 1:
        raise SizingError("pipe sizes are worked out for one supply; this network has another number")
    for link in task.network.links:
        if not isinstance(link, PipeLink | PowerLink | CurveLink):
            raise SizingError(f"“{link.id}” is of a kind for which pipe sizes cannot be worked out yet")
    for emitter in task.network.emitters:
        if any(a[1] >= b[1] for a, b in pairwise(emitter.rows)):
            raise SizingError(f"the rows of outlet “{emitter.id}” must rise in pressure from one to the next")
    _refuse_bad_candidates(task)
    if not 0 < task.spread_share <= 1:
        raise SizingError("the greatest pressure spread is a share above 0 and at most 1")


def _refuse_bad_candidates(task: SizingTask) -> None:
    pipes = {link.id for link in task.network.links if isinstance(link, PipeLink)}
    for pipe, candidates in task.candidates.items():
        if pipe not in pipes:
            raise SizingError(f"“{pipe}” is no pipe of the network")
        if not candidates:
            raise SizingError(f"pipe “{pipe}” has no candidate; name at least one part for it")
        for candidate in candidates:
            figures = (candidate.bore_mm, candidate.c, candidate.cost_per_m)
            if not all(map(math.isfinite, figures)) or candidate.bore_mm <= 0 or candidate.c <= 0:
                raise SizingError(f"“{candidate.code}” needs a bore, a C and a price")
            if candidate.cost_per_m < 0 or not candidate.most_mps > 0:
                raise SizingError(
                    f"“{candidate.code}” needs a price of zero or more and a velocity above zero"
                )
