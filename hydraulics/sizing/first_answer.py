"""A fast first answer: from the widest pipes down, one size at a time, as long as the solver agrees.

It proves nothing. It gives the search a cost to beat, and an answer if time runs out.
"""

import time
from collections.abc import Callable, Mapping, Sequence

from hydraulics.network import PipeLink
from hydraulics.sizing.task import Candidate, SizingTask

Choice = dict[str, Candidate]
SAME_BORE_MM = 1e-6


def widest_choice(task: SizingTask, pairs: Sequence[tuple[str, str]]) -> Choice | None:
    """The widest candidate for each pipe that the order along the water allows; none if none does."""
    choice = {pipe: max(found, key=lambda c: c.bore_mm) for pipe, found in task.candidates.items()}
    bore = _fixed_bores(task)
    for _ in range(len(pairs) + 1):
        changed = False
        for feeding, fed in pairs:
            limit = choice[feeding].bore_mm if feeding in choice else bore[feeding]
            if fed in choice and choice[fed].bore_mm > limit + SAME_BORE_MM:
                fitting = [c for c in task.candidates[fed] if c.bore_mm <= limit + SAME_BORE_MM]
                if not fitting:
                    return None
                choice[fed], changed = max(fitting, key=lambda c: c.bore_mm), True
        if not changed:
            break
    return choice if keeps_order(task, pairs, choice) else None


def keeps_order(task: SizingTask, pairs: Sequence[tuple[str, str]], choice: Mapping[str, Candidate]) -> bool:
    """No pipe is wider than what feeds it; pipes that are not chosen count only beside chosen ones."""
    bore = _fixed_bores(task) | {pipe: c.bore_mm for pipe, c in choice.items()}
    return all(
        bore[fed] <= bore[feeding] + SAME_BORE_MM
        for feeding, fed in pairs
        if feeding in choice or fed in choice
    )


def narrow_down(
    task: SizingTask,
    pairs: Sequence[tuple[str, str]],
    start: Choice,
    is_good: Callable[[Choice], bool],
    until: float,
) -> Choice:
    """Take, again and again, the cheaper candidate that saves most and is still good."""
    choice, refused = dict(start), set[tuple[str, str]]()
    length = task.length_m
    while time.monotonic() < until:
        steps = [
            ((choice[pipe].cost_per_m - c.cost_per_m) * length[pipe], pipe, c)
            for pipe, candidates in task.candidates.items()
            for c in _next_cheaper(candidates, choice[pipe])
            if (pipe, c.code) not in refused and keeps_order(task, pairs, {**choice, pipe: c})
        ]
        if not steps:
            break
        _, pipe, candidate = max(steps, key=lambda step: step[:2])
        if is_good({**choice, pipe: candidate}):
            choice[pipe] = candidate
        else:
            refused.add((pipe, candidate.code))
    return choice


def _next_cheaper(candidates: Sequence[Candidate], now: Candidate) -> list[Candidate]:
    """Of the candidates that cost less, the one with the widest bore."""
    cheaper = [c for c in candidates if c.cost_per_m < now.cost_per_m]
    return [max(cheaper, key=lambda c: c.bore_mm)] if cheaper else []


def _fixed_bores(task: SizingTask) -> dict[str, float]:
    return {
        link.id: link.bore_mm
        for link in task.network.links
        if isinstance(link, PipeLink) and link.id not in task.candidates
    }
