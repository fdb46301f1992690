"""The sizing as a linear program that every good choice of pipes satisfies.

Each pipe takes exactly one candidate. In every case flows balance at each node and heads along each
link; the laws of loss and of outflow, which are curved, are replaced by straight lines that enclose
them between the bounds of ``live.py``, one set of lines for each candidate. So the program admits
every choice that meets the needs and some that do not: its least cost is a lower bound.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from hydraulics.network import PipeLink
from hydraulics.sizing.laws import SmoothLoss, is_point, source_loss
from hydraulics.sizing.live import LiveCase, LiveLink, LiveOutlet, Mode
from hydraulics.sizing.program import Answer, Program, Term
from hydraulics.sizing.task import Candidate, SizingTask

SAME_BORE_MM = 1e-6
# tangents where the bounds are close, and where they are not
FEW, MANY = 3, 9
CLOSE = 1.3


@dataclass
class _Part:
    """A link as one of its modes, running one way: weight (none: always), flow and loss variables."""

    weight: int | None
    sign: int
    mode: Mode
    low: float
    high: float
    flow: list[Term] = field(default_factory=list)
    loss: list[Term] = field(default_factory=list)
    flow_offset: float = 0.0
    loss_offset: float = 0.0


class SizingModel:
    """Build once, then solve, forbid, sharpen and solve again."""

    def __init__(self, task: SizingTask, cases: Sequence[LiveCase], pairs: Sequence[tuple[str, str]]) -> None:
        self.task = task
        self.program = Program()
        self.cases = cases
        self._bends: dict[tuple[str, str], list[_Part]] = {}
        length = task.length_m
        self.taken = {
            pipe: [self.program.variable(0, 1, c.cost_per_m * length[pipe], whole=True) for c in candidates]
            for pipe, candidates in task.candidates.items()
        }
        for places in self.taken.values():
            self.program.row([(x, 1.0) for x in places], 1.0, 1.0)
        for feeding, fed in pairs:
            self._order(feeding, fed)
        for case in cases:
            _CaseRows(self, case).add()

    def solve(self, seconds: float) -> Answer:
        return self.program.solve(seconds)

    def choice(self, answer: Answer) -> dict[str, Candidate]:
        values = answer.values
        if values is None:
            raise ValueError("the program has no solution to read")
        return {
            pipe: self.task.candidates[pipe][max(range(len(xs)), key=lambda place: values[xs[place]])]
            for pipe, xs in self.taken.items()
        }

    def at_most(self, cost: float) -> None:
        """Look only for what costs no more than this."""
        self.program.row(self.program.costs, high=cost)

    def forbid(self, case: LiveCase, choice: Mapping[str, Candidate]) -> None:
        """No two choices that agree on all pipes of a case differ in it: this one failed there."""
        same = [
            (xs[self.task.candidates[pipe].index(choice[pipe])], 1.0)
            for pipe, xs in self.taken.items()
            if pipe in case.sized
        ]
        self.program.row(same, high=len(same) - 1)

    def sharpen(self, case: LiveCase, link_lpm: Mapping[str, float]) -> None:
        """Tangents at the flows that the solver found in a case."""
        for link in case.links:
            for part in self._bends.get((case.case.label, link.id), ()):
                flow = abs(link_lpm.get(link.id, 0.0))
                if isinstance(part.mode.loss, SmoothLoss) and part.low < flow < part.high:
                    self._line(part, part.mode.loss.tangent(flow), below=True)

    def keep_bends(self, case: LiveCase, link: LiveLink, part: _Part) -> None:
        self._bends.setdefault((case.case.label, link.id), []).append(part)

    def _line(self, part: _Part, line: tuple[float, float], below: bool) -> None:
        """loss >= slope * flow + offset * weight, or <=."""
        slope, offset = line
        terms = [*part.loss, *((x, -slope * a) for x, a in part.flow)]
        constant = 0.0
        if part.weight is None:
            constant = offset
        else:
            terms.append((part.weight, -offset))
        if below:
            self.program.row(terms, low=constant)
        else:
            self.program.row(terms, high=constant)

    def enclose(self, part: _Part) -> None:
        count = FEW if part.low > 0 and part.high < CLOSE * part.low else MANY
        for line in part.mode.loss.lines_below(part.low, part.high, count):
            self._line(part, line, below=True)
        for line in part.mode.loss.lines_above(part.low, part.high):
            self._line(part, line, below=False)

    def _order(self, feeding: str, fed: str) -> None:
        """The fed pipe is no wider, bore by bore: if it has this bore or more, so has what feeds it."""
        wide, narrow = self._bores(feeding), self._bores(fed)
        if wide is None or narrow is None or (feeding not in self.taken and fed not in self.taken):
            return
        for bore, _ in narrow:
            least = bore - SAME_BORE_MM
            fed_terms = [(x, 1.0) for b, x in narrow if b >= least and x is not None]
            always = any(x is None for b, x in narrow if b >= least)
            enough = [(x, -1.0) for b, x in wide if b >= least and x is not None]
            if not any(x is None for b, x in wide if b >= least):
                self.program.row([*fed_terms, *enough], high=-1.0 if always else 0.0)

    def _bores(self, pipe: str) -> list[tuple[float, int | None]] | None:
        """Bores of a pipe with the variable that takes each; none is always."""
        if pipe in self.taken:
            return [(c.bore_mm, x) for c, x in zip(self.task.candidates[pipe], self.taken[pipe], strict=True)]
        links = [link for link in self.task.network.links if link.id == pipe and isinstance(link, PipeLink)]
        return [(link.bore_mm, None) for link in links] or None


class _CaseRows:
    """The rows of one case."""

    def __init__(self, model: SizingModel, case: LiveCase) -> None:
        self.model, self.case, self.program = model, case, model.program
        source = model.task.network.sources[0]
        self.top_kpa = source.static_kpa + case.level_kpa[case.root]
        least = min(
            (case.level_kpa[o.node] + o.low_kpa for o in case.outlets), default=min(case.level_kpa.values())
        )
        self.head = {node: self.program.variable(least, self.top_kpa) for node in case.level_kpa}
        self.balance: dict[str, list[Term]] = {node: [] for node in case.level_kpa}
        self.given: dict[str, float] = dict.fromkeys(case.level_kpa, 0.0)

    def add(self) -> None:
        self._supply()
        for link in self.case.links:
            self._link(link)
        for outlet in self.case.outlets:
            self._outlet(outlet)
        for node, terms in self.balance.items():
            self.program.row(terms, -self.given[node], -self.given[node])
        self._spreads()

    def _supply(self) -> None:
        case = self.case
        mode = Mode(None, source_loss(self.model.task.network.sources[0]), case.high_lpm)
        part = self._part(mode, None, 1, (case.low_lpm, case.high_lpm))
        self._flows_into(case.root, part)
        self.program.row(
            [(self.head[case.root], 1.0), *part.loss],
            self.top_kpa - part.loss_offset,
            self.top_kpa - part.loss_offset,
        )

    def _link(self, link: LiveLink) -> None:
        self._close_the_rest(link)
        parts = self._both_ways(link) if link.both_ways else self._one_way(link)
        energy = [(self.head[link.tail], 1.0), (self.head[link.head], -1.0)]
        fixed = 0.0
        for part in parts:
            self.model.keep_bends(self.case, link, part)
            energy += [(x, -part.sign * a) for x, a in part.loss]
            fixed += part.sign * part.loss_offset
            self._flows_into(link.head, part)
            self._flows_into(link.tail, part, out=True)
        self.program.row(energy, fixed, fixed)

    def _close_the_rest(self, link: LiveLink) -> None:
        """Candidates too narrow for the least flow."""
        allowed = {mode.candidate for mode in link.modes}
        for place, x in enumerate(self.model.taken.get(link.id, ())):
            if place not in allowed:
                self.program.tighten(x, high=0.0)

    def _one_way(self, link: LiveLink) -> list[_Part]:
        return [
            self._part(mode, self._weight(link, mode), 1, (link.low_lpm, link.high_lpm))
            for mode in link.modes
        ]

    def _both_ways(self, link: LiveLink) -> list[_Part]:
        """One part each way; all that is taken runs the way that one whole variable says."""
        forward = self.program.variable(0, 1, whole=True)
        parts, ahead = [], list[Term]()
        for mode in link.modes:
            on, back = self.program.variable(0, 1), self.program.variable(0, 1)
            weight = self._weight(link, mode)
            taken = [(weight, -1.0)] if weight is not None else []
            total = 0.0 if weight is not None else 1.0
            self.program.row([(on, 1.0), (back, 1.0), *taken], total, total)
            ahead.append((on, 1.0))
            for sign, x in ((1, on), (-1, back)):
                parts.append(self._part(mode, x, sign, (0.0, link.high_lpm)))
        self.program.row([*ahead, (forward, -1.0)], 0.0, 0.0)
        return parts

    def _weight(self, link: LiveLink, mode: Mode) -> int | None:
        return None if mode.candidate is None else self.model.taken[link.id][mode.candidate]

    def _part(self, mode: Mode, weight: int | None, sign: int, bounds: tuple[float, float]) -> _Part:
        low, high = bounds[0], min(bounds[1], mode.most_lpm)
        part = _Part(weight, sign, mode, low, high)
        if is_point(low, high):
            self._fix(part)
            return part
        flow = self.program.variable(0.0, high)
        loss = self.program.variable(0.0, mode.loss.kpa(high))
        part.flow, part.loss = [(flow, 1.0)], [(loss, 1.0)]
        if weight is None:
            self.program.tighten(flow, low=low)
        else:
            self.program.row([(flow, 1.0), (weight, -low)], low=0.0)
            self.program.row([(flow, 1.0), (weight, -high)], high=0.0)
        self.model.enclose(part)
        return part

    def _fix(self, part: _Part) -> None:
        """A flow that is known already needs no variable."""
        loss = part.mode.loss.kpa(part.low)
        if part.weight is None:
            part.flow_offset, part.loss_offset = part.low, loss
        else:
            part.flow, part.loss = [(part.weight, part.low)], [(part.weight, loss)]

    def _flows_into(self, node: str, part: _Part, out: bool = False) -> None:
        sign = -part.sign if out else part.sign
        self.balance[node] += [(x, sign * a) for x, a in part.flow]
        self.given[node] += sign * part.flow_offset

    def _outlet(self, outlet: LiveOutlet) -> None:
        level = self.case.level_kpa[outlet.node]
        head = self.head[outlet.node]
        self.program.tighten(head, level + outlet.low_kpa, level + outlet.high_kpa)
        low, high = outlet.low_lpm, outlet.high_lpm
        if is_point(low, high):
            self.given[outlet.node] -= low
            return
        flow = self.program.variable(low, high)
        self.balance[outlet.node].append((flow, -1.0))
        for slope, offset in outlet.law.lines_above(outlet.low_kpa, outlet.high_kpa, FEW):
            self.program.row([(flow, 1.0), (head, -slope)], high=offset - slope * level)
        for slope, offset in outlet.law.lines_below(outlet.low_kpa, outlet.high_kpa):
            self.program.row([(flow, 1.0), (head, -slope)], low=offset - slope * level)

    def _spreads(self) -> None:
        share = self.model.task.spread_share
        groups: dict[str, list[LiveOutlet]] = {}
        for outlet in self.case.outlets:
            if outlet.need.group and share < 1:
                groups.setdefault(outlet.need.group, []).append(outlet)
        for outlets in groups.values():
            if len(outlets) > 1:
                floor = self.program.variable(0.0, self.top_kpa + abs(self.top_kpa))
                for outlet in outlets:
                    self._within(outlet, floor, 1 / (1 - share))

    def _within(self, outlet: LiveOutlet, floor: int, ratio: float) -> None:
        """floor <= acting pressure <= ratio * floor."""
        head, level = self.head[outlet.node], self.case.level_kpa[outlet.node]
        held = outlet.need.held_kpa
        self.program.row([(head, 1.0), (floor, -1.0)], low=level)
        if held is not None:
            self.program.tighten(floor, high=held)
        if held is None or held >= outlet.high_kpa:
            self.program.row([(head, 1.0), (floor, -ratio)], high=level)
        elif held <= outlet.low_kpa:
            self.program.tighten(floor, low=held / ratio)
        else:
            holds = self.program.variable(0, 1, whole=True)
            self.program.row([(head, 1.0), (floor, -ratio), (holds, -outlet.high_kpa)], high=level)
            self.program.row([(floor, ratio), (holds, -held)], low=0.0)
