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
    is_good: Callable[[Choice, str], bool],
    until: float,
) -> Choice:
    """Take, again and again, the cheaper candidate that saves most and is still good.

    ``is_good`` is asked with a choice and with the one pipe in which it differs from a good one.
    """
    choice, refused = dict(start), set[tuple[str, str]]()
    length, beside = task.length_m, _pairs_of(pairs)
    while time.monotonic() < until:
        steps = [
            ((choice[pipe].cost_per_m - c.cost_per_m) * length[pipe], pipe, c)
            for pipe, candidates in task.candidates.items()
            for c in _next_cheaper(candidates, choice[pipe])
            if (pipe, c.code) not in refused
        ]
        for _, pipe, candidate in sorted(steps, key=lambda step: step[:2], reverse=True):
            trial = choice | {pipe: candidate}
            if not keeps_order(task, beside.get(pipe, ()), trial):
                continue
            if time.monotonic() >= until:
                return choice
            if is_good(trial, pipe):
                choice = trial
                break
            refused.add((pipe, candidate.code))
        else:
            break
    return choice


def cut_from_the_ends(
    task: SizingTask,
    pairs: Sequence[tuple[str, str]],
    start: Choice,
    is_good: Callable[[Choice, str], bool],
    until: float,
) -> Choice:
    """One pass against the water: each pipe takes the cheapest candidate that is still good."""
    choice, beside = dict(start), _pairs_of(pairs)
    for pipe in _ends_first(task, beside):
        for candidate in sorted(task.candidates[pipe], key=lambda c: (c.cost_per_m, -c.bore_mm)):
            if time.monotonic() >= until or candidate.cost_per_m >= choice[pipe].cost_per_m:
                break
            trial = choice | {pipe: candidate}
            if keeps_order(task, beside.get(pipe, ()), trial) and is_good(trial, pipe):
                choice = trial
                break
    return choice


def _ends_first(task: SizingTask, beside: Mapping[str, Sequence[tuple[str, str]]]) -> list[str]:
    """Each pipe after those that it feeds; the rest, if the order ran in a ring, at the end."""
    waiting = {
        p: {b for a, b in beside.get(p, ()) if a == p and b in task.candidates} for p in task.candidates
    }
    order = [pipe for pipe, fed in waiting.items() if not fed]
    for pipe in order:
        for feeding, fed in beside.get(pipe, ()):
            if fed == pipe and feeding in waiting and pipe in waiting[feeding]:
                waiting[feeding].discard(pipe)
                if not waiting[feeding]:
                    order.append(feeding)
    return order + [pipe for pipe in task.candidates if pipe not in set(order)]


def _pairs_of(pairs: Sequence[tuple[str, str]]) -> dict[str, list[tuple[str, str]]]:
    """By pipe: the pairs that it is in."""
    found: dict[str, list[tuple[str, str]]] = {}
    for pair in pairs:
        for pipe in pair:
            found.setdefault(pipe, []).append(pair)
    return found


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
