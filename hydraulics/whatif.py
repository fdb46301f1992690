"""One case of a network many times over with other figures: supply, levels, tolerances."""

from dataclasses import dataclass, fields

import numpy as np

from hydraulics.careful import careful_balance
from hydraulics.elimination import SharedElimination
from hydraulics.errors import NetworkError, SolverStuck
from hydraulics.indexed import Floats, IndexedNetwork
from hydraulics.linear import linear_solver
from hydraulics.livepart import LivePart, live_part
from hydraulics.network import Case, Network
from hydraulics.newton import Balance, balance, misses
from hydraulics.stack import Stack
from hydraulics.units import KPA_PER_M

# runs behind a regulator fill a matrix each; this many cells take 64 MB
MOST_CELLS = 8_000_000


@dataclass(frozen=True)
class Variants:
    """What differs from run to run; n runs. None means that nothing of it changes.

    ``static_kpa`` (n) is added to the static of every supply, ``loss_factor`` (n) multiplies
    its loss, ``pipe_factor`` (n) the friction of every link. ``raise_m`` (n by nodes) is
    added to the levels, ``emitter_factor`` (n by emitters) multiplies the heads' coefficients;
    both in the order of the network.
    """

    static_kpa: Floats | None = None
    loss_factor: Floats | None = None
    pipe_factor: Floats | None = None
    raise_m: Floats | None = None
    emitter_factor: Floats | None = None

    @property
    def count(self) -> int:
        lengths = {len(values) for values in self._given()}
        if len(lengths) != 1 or 0 in lengths:
            raise NetworkError("give at least one changed figure, each for the same number of runs")
        return lengths.pop()

    def between(self, first: int, last: int) -> "Variants":
        """The figures of the runs from ``first`` up to ``last``, which is left out."""
        given = {f.name: getattr(self, f.name) for f in fields(self)}
        return Variants(**{name: None if v is None else v[first:last] for name, v in given.items()})

    def _given(self) -> list[Floats]:
        return [v for v in (getattr(self, f.name) for f in fields(self)) if v is not None]


@dataclass(frozen=True)
class VariantResults:
    """Runs by row; columns as ``nodes`` and ``emitters`` name them (what water reaches)."""

    nodes: tuple[str, ...]
    node_kpa: Floats
    emitters: tuple[str, ...]
    emitter_lpm: Floats


def solve_variants(network: Network, case: Case, variants: Variants) -> VariantResults:
    """All runs at once. Raises as the solver does, and NetworkError on figures that do not fit."""
    net = IndexedNetwork(network)
    part = live_part(net, case.closed)
    runs = variants.count
    found: list[tuple[Floats, Floats]] = []
    for first in range(0, runs, _runs_at_once(net, part, runs)):
        last = min(first + _runs_at_once(net, part, runs), runs)
        found.append(_solve_runs(net, part, case, variants.between(first, last), first))
    head, flow = (np.concatenate(pieces) for pieces in zip(*found, strict=True))
    return _results(net, part, variants, head, flow)


def _runs_at_once(net: IndexedNetwork, part: LivePart, runs: int) -> int:
    """Behind a regulator each run needs a matrix of its own."""
    return max(1, MOST_CELLS // max(len(part.unknown), 1) ** 2) if net.regulators else max(runs, 1)


def _solve_runs(
    net: IndexedNetwork, part: LivePart, case: Case, variants: Variants, first: int
) -> tuple[Floats, Floats]:
    """Unknown heads and flows, runs by row; ``first`` is the number of the first run."""
    stack = _varied(net, part, variants)
    with np.errstate(all="ignore"):
        linear = linear_solver(stack) if net.regulators else SharedElimination(part, stack.cases)
        found = balance(stack, linear)
        head, flow = _by_run(stack, found)
        if not found.settled:
            _mend(net, part, (case, first), variants, (stack, found, head, flow))
    return head, flow


def _varied(net: IndexedNetwork, part: LivePart, variants: Variants) -> Stack:
    """The part once per run, with its figures changed."""
    runs = variants.count
    stack = Stack(net, [part] * runs)
    sources, nodes = len(net.curved), len(net.node_ids)
    known = stack.head[runs * stack.size :].reshape(runs, -1)
    laws = stack.r.reshape(runs, -1)
    is_source = (part.rows >= net.link_count) & (part.rows < net.first_emitter)
    if variants.static_kpa is not None:
        fixed = [i for i in range(nodes) if net.known[i]] + list(range(nodes, nodes + sources))
        known[:, fixed] += variants.static_kpa[:, None]
    if variants.loss_factor is not None:
        laws[:, is_source] *= variants.loss_factor[:, None]
    if variants.pipe_factor is not None:
        laws[:, part.rows < net.link_count] *= variants.pipe_factor[:, None]
    if variants.raise_m is not None:
        known += KPA_PER_M * variants.raise_m[:, _node_of_head(net)]
        if stack.cap is not None:
            ends = [net.end[row] if net.end[row] < nodes else 0 for row in part.rows]
            stack.cap += KPA_PER_M * variants.raise_m[:, ends].reshape(-1)
    if variants.emitter_factor is not None:
        _scale_emitters(net, part, stack, variants.emitter_factor)
    return stack


def _node_of_head(net: IndexedNetwork) -> list[int]:
    """The node whose level counts in each head: its own, the supply's, the outlet's."""
    nodes = list(range(len(net.node_ids)))
    nodes += [net.index[source.node] for source in net.curved]
    return nodes + [net.index[emitter.node] for emitter in net.network.emitters]


def _scale_emitters(net: IndexedNetwork, part: LivePart, stack: Stack, factor: Floats) -> None:
    at = np.flatnonzero(part.rows >= net.first_emitter)
    scale = factor[:, part.rows[at] - net.first_emitter]
    runs = stack.cases
    stack.r.reshape(runs, -1)[:, at] *= scale ** -stack.n.reshape(runs, -1)[:, at]
    stack.high.reshape(runs, -1)[:, at] *= scale
    if len(stack.curve_at):
        by_row = np.ones_like(stack.r)
        by_row.reshape(runs, -1)[:, at] = scale
        stack.curve_flow *= by_row[stack.curve_at, None]
        stack.curve_slope /= by_row[stack.curve_at, None]


def _by_run(stack: Stack, found: Balance) -> tuple[Floats, Floats]:
    """Unknown heads and flows, runs by row."""
    heads = found.head[: stack.cases * stack.size].reshape(stack.cases, -1).copy()
    return heads, found.flow.reshape(stack.cases, -1).copy()


def _mend(
    net: IndexedNetwork,
    part: LivePart,
    which: tuple[Case, int],
    variants: Variants,
    state: tuple[Stack, Balance, Floats, Floats],
) -> None:
    """Solve again by itself each run that circles, and put its figures in place."""
    stack, found, head, flow = state
    case, first = which
    for run in np.flatnonzero(misses(stack, found)):
        alone = _varied(net, part, variants.between(int(run), int(run) + 1))
        mended = careful_balance(alone, linear_solver(alone))
        if not mended.settled:
            error = np.abs(mended.energy_error)
            worst = int(error.argmax())
            raise SolverStuck(
                f"{case.label}, run {first + run}", (net.row_ids[part.rows[worst]],), float(error[worst])
            )
        head[run], flow[run] = mended.head[: stack.size], mended.flow


def _results(
    net: IndexedNetwork, part: LivePart, variants: Variants, head: Floats, flow: Floats
) -> VariantResults:
    runs = len(head)
    levels = np.tile(net.level_kpa, (runs, 1))
    if variants.raise_m is not None:
        levels += KPA_PER_M * variants.raise_m
    total: dict[int, Floats] = {int(node): head[:, i] for i, node in enumerate(part.unknown)}
    for node in net.roots:
        if node < len(net.node_ids):
            lift = levels[:, node] - net.level_kpa[node] + _added_static(variants, runs)
            total[node] = net.head_kpa[node] + lift
    for node, parent, row in part.still:
        total[node] = total[parent]
        if net.cap_kpa[row] < np.inf and net.end[row] == node:
            lift = levels[:, node] - net.level_kpa[node]
            total[node] = np.minimum(total[parent], net.cap_kpa[row] + lift)
    nodes = [node for node in total if node < len(net.node_ids)]
    columns = [total[node] - levels[:, node] for node in nodes]
    outlets = np.flatnonzero(part.rows >= net.first_emitter)
    return VariantResults(
        nodes=tuple(net.node_ids[node] for node in nodes),
        node_kpa=np.column_stack(columns),
        emitters=tuple(net.row_ids[row] for row in part.rows[outlets]),
        emitter_lpm=flow[:, outlets],
    )


def _added_static(variants: Variants, runs: int) -> Floats:
    return np.zeros(runs) if variants.static_kpa is None else variants.static_kpa
