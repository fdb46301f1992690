"""The part of a network that carries water in one case, with a first guess of its flows."""

from dataclasses import dataclass

import numpy as np

from hydraulics.indexed import Floats, IndexedNetwork, Ints


@dataclass(frozen=True)
class LivePart:
    """Index arrays of one case.

    ``start`` and ``end`` of each row are local: 0.. for the unknown heads in ``unknown``,
    and -1 - i for head i of the network where that is known. ``still`` lists dead ends
    without outlet as (node, node that gives it its head), in the order to fill them in.
    """

    unknown: Ints
    rows: Ints
    start: Ints
    end: Ints
    guess_lpm: Floats
    still: tuple[tuple[int, int, int], ...]


def live_part(net: IndexedNetwork, closed: frozenset[str]) -> LivePart:
    """What is reached from the supplies through open links, without its idle dead ends."""
    shut = net.rows_named(closed)
    order, rows = _reach(net, shut)
    outlets = {n: [r for r in net.outlets[n] if r not in shut] for n in order if n < len(net.outlets)}
    rows, still = _strip_dead_ends(net, rows, outlets)
    idle = {node for node, _, _ in still}
    unknown = [n for n in order if not net.known[n] and n not in idle]
    flows = _guess_flows(net, order, rows, outlets)
    all_rows = rows + [row for n in order if n not in idle for row in outlets.get(n, ())]
    return _as_arrays(net, unknown, all_rows, flows, still)


def reached(net: IndexedNetwork, closed: frozenset[str]) -> tuple[list[int], list[int]]:
    """Nodes that water reaches with those ids shut, and the open rows between them."""
    return _reach(net, net.rows_named(closed))


def _reach(net: IndexedNetwork, shut: set[int]) -> tuple[list[int], list[int]]:
    """Nodes in the order that water reaches them, and every open row between them."""
    order = list(net.roots)
    seen = set(order)
    rows: list[int] = []
    taken: set[int] = set()
    for node in order:
        for row, other in net.neighbours[node]:
            if row in shut or row in taken:
                continue
            taken.add(row)
            rows.append(row)
            if other not in seen:
                seen.add(other)
                order.append(other)
    return order, rows


def _strip_dead_ends(
    net: IndexedNetwork, rows: list[int], outlets: dict[int, list[int]]
) -> tuple[list[int], tuple[tuple[int, int, int], ...]]:
    """Take off unknown nodes with one row and no outlet, again and again."""
    touching: dict[int, set[int]] = {}
    for row in rows:
        touching.setdefault(net.start[row], set()).add(row)
        touching.setdefault(net.end[row], set()).add(row)
    queue = [n for n, at in touching.items() if len(at) == 1 and not net.known[n] and not outlets.get(n)]
    still = []
    for node in queue:
        if len(touching[node]) != 1:
            continue
        (row,) = touching[node]
        parent = net.start[row] if net.end[row] == node else net.end[row]
        still.append((node, parent, row))
        touching[node].clear()
        touching[parent].discard(row)
        if len(touching[parent]) == 1 and not net.known[parent] and not outlets.get(parent):
            queue.append(parent)
    gone = {row for _, _, row in still}
    return [row for row in rows if row not in gone], tuple(reversed(still))


def _guess_flows(
    net: IndexedNetwork, order: list[int], rows: list[int], outlets: dict[int, list[int]]
) -> dict[int, float]:
    """Outlet guesses summed up the tree in which water first reaches the nodes."""
    rank = {node: i for i, node in enumerate(order)}
    parent: dict[int, tuple[int, int]] = {}
    flows = {}
    for row in rows:
        a, b = net.start[row], net.end[row]
        upper, lower = (a, b) if rank[a] < rank[b] else (b, a)
        flows[row] = net.guess_lpm[row] if upper == a else -net.guess_lpm[row]
        if lower not in parent and not net.known[lower]:
            parent[lower] = (row, upper)
    need = {node: sum(net.guess_lpm[row] for row in at) for node, at in outlets.items()}
    for node in reversed(order):
        if node in parent and need.get(node, 0.0) > 0:
            row, upper = parent[node]
            need[upper] = need.get(upper, 0.0) + need[node]
            flows[row] = need[node] if net.start[row] == upper else -need[node]
    for at in outlets.values():
        flows.update((row, net.guess_lpm[row]) for row in at)
    return flows


def _as_arrays(
    net: IndexedNetwork,
    unknown: list[int],
    rows: list[int],
    flows: dict[int, float],
    still: tuple[tuple[int, int, int], ...],
) -> LivePart:
    local = {node: i for i, node in enumerate(unknown)}
    start = [local.get(net.start[row], -1 - net.start[row]) for row in rows]
    end = [local.get(net.end[row], -1 - net.end[row]) for row in rows]
    return LivePart(
        unknown=np.array(unknown, dtype=np.intp),
        rows=np.array(rows, dtype=np.intp),
        start=np.array(start, dtype=np.intp),
        end=np.array(end, dtype=np.intp),
        guess_lpm=np.array([flows[row] for row in rows], dtype=float),
        still=still,
    )
