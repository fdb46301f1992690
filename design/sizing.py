"""The cheapest pipes for a plan: ``size_pipes`` takes its drawing as it is and chooses parts only."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal

from design.document import Pipe, Plan
from design.problems import PlanInvalid
from design.site import Site
from design.sizing_candidates import Choices, Chooser, LeftPipe, Price
from design.sizing_result import CENT, PipeChange, SizingResult, WorstHead
from design.sizing_words import impossible_sentences, proof_sentence, shortfall_sentence
from design.solving import Solved, least_kpa, solve_site
from hydraulics.catalogue import Catalogue, DripPart, HeadPart
from hydraulics.limits import Limits
from hydraulics.network import Solution
from hydraulics.sizing import Candidate, NetworkSizing, OutletNeed, SizingError, SizingTask, size_network
from hydraulics.sizing.proving import outlet_kpa, shortfalls

__all__ = ["PlanInvalid", "SizingOptions", "SizingResult", "size_pipes"]

IDLE_LPM = 1e-9


@dataclass(frozen=True)
class SizingOptions:
    """``locked`` pipes keep their part. ``named`` gives part codes by pipe id, in place of its family."""

    locked: frozenset[str] = frozenset()
    named: Mapping[str, Sequence[str]] = field(default_factory=dict)
    seconds: float = 20.0


def size_pipes(
    plan: Plan,
    parts: Catalogue,
    limits: Limits,
    prices: Mapping[str, Price],
    options: SizingOptions | None = None,
) -> SizingResult:
    """The least-cost part for each pipe, so that every case meets all that the check asks.

    ``prices`` holds the price of one metre by part code. Every head keeps its least pressure with
    the reserve of the limits, or bare where that cannot be had; velocities keep below the limit for
    warnings, zones within their spread, mains within their rating when a valve shuts; no pipe is
    wider than the one that feeds it. Raises PlanInvalid as ``check`` does, and SizingError where
    there is nothing to size.
    """
    return _Sizing(Site(plan, parts, limits), prices, options or SizingOptions()).result()


class _Sizing:
    def __init__(self, site: Site, prices: Mapping[str, Price], options: SizingOptions) -> None:
        self.site, self.prices, self.options = site, prices, options
        self.solved: Solved = solve_site(site)
        if self.solved.built is None or not self.solved.cases:
            raise SizingError("There is nothing to size yet: draw a valve with pipes and heads behind it.")
        self.built = self.solved.built
        self.length = {pipe.id: Decimal(str(round(site.pipe_m[pipe.id], 3))) for pipe in self._pipes}
        self.choices: Choices = self._choices()
        if not self.choices.candidates:
            raise SizingError(_nothing_left(self.choices.left))

    @property
    def _pipes(self) -> Sequence[Pipe]:
        return self.site.plan.layout.pipes

    def result(self) -> SizingResult:
        share = max(self.site.limits.head_pressure_warn_share, 1.0)
        task = self._task(share)
        found = self._search(task)
        if found.outcome == "impossible" and share > 1:
            share, task = 1.0, self._task(1.0)
            found = self._search(task)
        part_of = {pipe.id: pipe.part for pipe in self._pipes}
        chosen = part_of | {pipe: candidate.code for pipe, candidate in found.choice.items()}
        before = tuple(
            shortfall_sentence(fault, part_of)
            for fault in shortfalls(task, self._present(task), self.solved.solutions)
        )
        cost_before = sum((self._cost(pipe, part_of[pipe]) for pipe in task.candidates), Decimal(0))
        cost_after = sum((self._cost(pipe, chosen[pipe]) for pipe in task.candidates), Decimal(0))
        return SizingResult(
            outcome=found.outcome,
            plan=self._sized_plan(chosen) if found.is_found else None,
            changes=self._changes(part_of, chosen),
            cost_before=cost_before,
            cost_after=cost_after if found.is_found else cost_before,
            lower_bound=cost_after if found.outcome == "least" else Decimal(str(round(found.lower_bound, 4))),
            gap_pct=100 * found.gap,
            proof=proof_sentence(found),
            worst_before=self._worst_head(task, self.solved.solutions),
            worst_after=self._worst_head(task, found.solutions),
            before=before,
            shortfalls=() if found.is_found else impossible_sentences(found, self._widest(task)),
            left=self.choices.left,
            head_share=share,
            rounds=found.rounds,
            seconds=found.seconds,
        )

    def _choices(self) -> Choices:
        flows = [solution.link_lpm for solution in self.solved.solutions]
        idle = (p.id for p in self._pipes if all(abs(q.get(p.id, 0.0)) <= IDLE_LPM for q in flows))
        options = self.options
        chooser = Chooser(self.site, self.solved.supply, self.prices, options.locked, options.named)
        return chooser.choices(idle)

    def _task(self, head_share: float) -> SizingTask:
        cases = tuple(self.built.case(case.label, case.open) for case in self.solved.cases)
        spread = min(self.site.limits.zone_pressure_spread_pct / 100, 1.0)
        return SizingTask(self.built.network, cases, self.choices.candidates, self._needs(head_share), spread)

    def _needs(self, head_share: float) -> dict[str, OutletNeed]:
        needs = {}
        for head, zone in self.site.topology.zone_of_head().items():
            part = self.site.parts[self.site.heads[head].part]
            held = part.min_kpa if isinstance(part, DripPart) else None
            held = part.regulated_kpa if isinstance(part, HeadPart) else held
            needs[head] = OutletNeed(head_share * least_kpa(self.site, part.code), zone, held)
        return needs

    def _search(self, task: SizingTask) -> NetworkSizing:
        present = self._present(task)
        whole = present if len(present) == len(task.candidates) else None
        return size_network(task, whole, self.options.seconds)

    def _present(self, task: SizingTask) -> dict[str, Candidate]:
        """What is drawn, of the pipes to size, where it is among the candidates."""
        part_of = {pipe.id: pipe.part for pipe in self._pipes}
        return {
            pipe: candidate
            for pipe, candidates in task.candidates.items()
            for candidate in candidates
            if candidate.code == part_of[pipe]
        }

    def _widest(self, task: SizingTask) -> dict[str, str]:
        return {pipe: max(found, key=lambda c: c.bore_mm).code for pipe, found in task.candidates.items()}

    def _cost(self, pipe: str, code: str) -> Decimal:
        """To the cent, half up, so that what is shown adds up."""
        price = self.prices[code]
        exact = self.length[pipe] * (price if isinstance(price, Decimal) else Decimal(str(price)))
        return exact.quantize(CENT, ROUND_HALF_UP)

    def _sized_plan(self, chosen: Mapping[str, str]) -> Plan:
        pipes = [pipe.model_copy(update={"part": chosen[pipe.id]}) for pipe in self._pipes]
        layout = self.site.plan.layout.model_copy(update={"pipes": pipes})
        return self.site.plan.model_copy(update={"layout": layout})

    def _changes(self, before: Mapping[str, str], after: Mapping[str, str]) -> tuple[PipeChange, ...]:
        return tuple(
            PipeChange(
                pipe=pipe.id,
                role=self.site.topology.roles[pipe.id],
                before=before[pipe.id],
                after=after[pipe.id],
                length_m=self.site.pipe_m[pipe.id],
                cost_before=self._cost(pipe.id, before[pipe.id]),
                cost_after=self._cost(pipe.id, after[pipe.id]),
            )
            for pipe in self._pipes
            if before[pipe.id] != after[pipe.id]
        )

    def _worst_head(self, task: SizingTask, solutions: Iterable[Solution]) -> WorstHead | None:
        heads = [
            WorstHead(head, solution.case, pressure, least_kpa(self.site, self.site.heads[head].part))
            for solution in solutions
            for head, pressure in outlet_kpa(task, solution).items()
            if head in task.needs
        ]
        return min(heads, key=lambda head: head.pressure_kpa - head.least_kpa, default=None)


def _nothing_left(left: Sequence[LeftPipe]) -> str:
    reasons = sorted({pipe.why for pipe in left})
    return f"No pipe is left to size: {'; '.join(reasons)}."
