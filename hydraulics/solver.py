"""Solve the cases of a network: pressures, flows, losses."""

from collections.abc import Sequence

import numpy as np

from hydraulics.careful import careful_balance
from hydraulics.errors import SolverStuck
from hydraulics.indexed import Floats, IndexedNetwork
from hydraulics.linear import linear_solver
from hydraulics.livepart import LivePart, live_part
from hydraulics.network import Case, Network, RegulatorState, Solution
from hydraulics.newton import Balance, balance
from hydraulics.stack import Stack

ALL_OPEN = Case()


def solve(network: Network, case: Case = ALL_OPEN) -> Solution:
    """One case. Raises NetworkError, DisconnectedNodes or SolverStuck."""
    return solve_cases(network, (case,))[0]


def solve_cases(network: Network, cases: Sequence[Case]) -> tuple[Solution, ...]:
    """Every case of a network, all at once. Raises as ``solve`` does."""
    if not cases:
        return ()
    net = IndexedNetwork(network)
    parts = [live_part(net, case.closed) for case in cases]
    stack = Stack(net, parts)
    # what overflows never settles and ends as SolverStuck
    with np.errstate(all="ignore"):
        found = balance(stack, linear_solver(stack))
        if found.settled:
            return tuple(_solution(stack, found, number, case) for number, case in enumerate(cases))
        return tuple(_solve_alone(net, part, case) for part, case in zip(parts, cases, strict=True))


def _solve_alone(net: IndexedNetwork, part: LivePart, case: Case) -> Solution:
    """One case by itself, with cut steps where whole ones circle."""
    stack = Stack(net, [part])
    linear = linear_solver(stack)
    found = balance(stack, linear)
    if not found.settled:
        found = careful_balance(stack, linear)
    if not found.settled:
        raise _stuck(stack, found, case)
    return _solution(stack, found, 0, case)


def _solution(stack: Stack, found: Balance, number: int, case: Case) -> Solution:
    net, part, n = stack.net, stack.parts[number], stack.size
    from_row = int(stack.row_counts[:number].sum())
    span = slice(from_row, from_row + len(part.rows))
    cells = slice(number * n, number * n + len(part.unknown))
    heads = _node_heads(stack, found, number)
    named = {net.node_ids[i]: head - net.level_kpa[i] for i, head in heads.items() if i < len(net.node_ids)}
    rows = part.rows.tolist()
    flow = dict(zip(rows, found.flow[span].tolist(), strict=True))
    loss = dict(zip(rows, found.loss[span].tolist(), strict=True))
    for _, _, row in part.still:
        flow[row] = loss[row] = 0.0
    regulators = [row for row in net.regulators if row in flow]
    loss.update((row, heads[net.start[row]] - heads[net.end[row]]) for row in regulators)
    source_lpm = {
        s.id: flow.get(row, 0.0) for s, row in zip(net.curved, net.source_rows.values(), strict=True)
    }
    return Solution(
        case=case.label,
        node_kpa={id_: float(p) for id_, p in named.items()},
        link_lpm={net.row_ids[row]: q for row, q in flow.items() if row < net.link_count},
        link_loss_kpa={net.row_ids[row]: h for row, h in loss.items() if row < net.link_count},
        emitter_lpm={net.row_ids[row]: q for row, q in flow.items() if row >= net.first_emitter},
        source_lpm=source_lpm | _fixed_source_lpm(net, flow),
        iterations=found.steps,
        mass_error_lpm=float(np.abs(found.mass_error[cells]).max(initial=0.0)),
        energy_error_kpa=float(np.abs(found.energy_error[span]).max(initial=0.0)),
        regulators={net.row_ids[row]: _regulator_state(net, row, heads, flow[row]) for row in regulators},
    )


def _node_heads(stack: Stack, found: Balance, number: int) -> dict[int, float]:
    """Total head by node; idle dead ends take that of the node they hang from."""
    net, part, n = stack.net, stack.parts[number], stack.size
    heads: dict[int, float] = {i: float(net.head_kpa[i]) for i in net.roots}
    cells = found.head[number * n : number * n + len(part.unknown)]
    heads.update(zip(part.unknown.tolist(), cells.tolist(), strict=True))
    for node, parent, row in part.still:
        held = net.cap_kpa[row] if net.end[row] == node else np.inf
        heads[node] = min(heads[parent], float(held))
    return heads


def _regulator_state(
    net: IndexedNetwork, row: int, heads: dict[int, float], flow_lpm: float
) -> RegulatorState:
    if flow_lpm <= 0.0 and heads[net.end[row]] > min(heads[net.start[row]], net.cap_kpa[row]):
        return "closed"
    return "active" if heads[net.start[row]] > net.cap_kpa[row] else "open"


def _fixed_source_lpm(net: IndexedNetwork, flow: dict[int, float]) -> dict[str, float]:
    """What leaves the nodes of fixed pressure."""
    leaving = {}
    for source in net.network.sources:
        if source.id in net.source_rows:
            continue
        node = net.index[source.node]
        links = [(row, net.start[row] == node) for row, _ in net.neighbours[node]]
        leaving[source.id] = sum(flow.get(row, 0.0) * (1 if out else -1) for row, out in links)
        leaving[source.id] += sum(flow.get(row, 0.0) for row in net.outlets[node])
    return leaving


def _stuck(stack: Stack, found: Balance, case: Case) -> SolverStuck:
    error: Floats = np.abs(found.energy_error)
    worst = np.argsort(error)[::-1][:3]
    where = tuple(stack.net.row_ids[stack.rows[i]] for i in worst)
    return SolverStuck(case.label, where, float(error[worst[0]]))
