"""Linear systems of many cases that share one layout, by sparse elimination.

A garden's network is nearly a tree, so that eliminating the node with the fewest
neighbours first leaves hardly any fill. The order is found once; each of its steps then
works on all cases together.
"""

from dataclasses import dataclass

import numpy as np

from hydraulics.indexed import Floats
from hydraulics.livepart import LivePart


@dataclass(frozen=True)
class _Step:
    """Node to eliminate, and the entry and the node of each neighbour that is left."""

    node: int
    entries: tuple[int, ...]
    others: tuple[int, ...]
    fills: tuple[tuple[int, int, int], ...]  # entry to change, and the two positions in ``entries``


class SharedElimination:
    """``solve`` takes flat arrays of all cases, as newton.balance has them."""

    def __init__(self, part: LivePart, cases: int) -> None:
        self.cases, self.size, self.rows = cases, len(part.unknown), len(part.rows)
        ends = list(zip(part.start.tolist(), part.end.tolist(), strict=True))
        self.entry_of: dict[tuple[int, int], int] = {}
        entry_rows: dict[int, list[int]] = {}
        self.on_diagonal: list[list[int]] = [[] for _ in range(self.size)]
        for row, (a, b) in enumerate(ends):
            for node in (a, b):
                if node >= 0:
                    self.on_diagonal[node].append(row)
            if a >= 0 and b >= 0:
                entry_rows.setdefault(self._entry(a, b), []).append(row)
        self.entry_rows = list(entry_rows.items())
        self.steps = self._order()

    def solve(self, conductance: Floats, inflow: Floats, counts: Floats | None = None) -> Floats:
        if counts is not None:
            raise ValueError("shared elimination is for networks without regulators; use linear_solver")
        by_row = np.ascontiguousarray(conductance.reshape(self.cases, self.rows).T)
        right = np.ascontiguousarray(inflow.reshape(self.cases, self.size).T)
        diagonal = np.stack([by_row[rows].sum(axis=0) for rows in self.on_diagonal])
        values = np.zeros((len(self.entry_of), self.cases))
        for entry, rows in self.entry_rows:
            values[entry] = -by_row[rows].sum(axis=0)
        self._forward(diagonal, values, right)
        self._backward(diagonal, values, right)
        return np.append(right.T.reshape(-1), 0.0)

    def _forward(self, diagonal: Floats, values: Floats, right: Floats) -> None:
        for step in self.steps:
            node, shares = step.node, [values[entry] / diagonal[step.node] for entry in step.entries]
            for share, entry, other in zip(shares, step.entries, step.others, strict=True):
                diagonal[other] -= share * values[entry]
                right[other] -= share * right[node]
            for entry, first, second in step.fills:
                values[entry] -= shares[first] * values[step.entries[second]]

    def _backward(self, diagonal: Floats, values: Floats, right: Floats) -> None:
        for step in reversed(self.steps):
            for entry, other in zip(step.entries, step.others, strict=True):
                right[step.node] -= values[entry] * right[other]
            right[step.node] /= diagonal[step.node]

    def _entry(self, a: int, b: int) -> int:
        return self.entry_of.setdefault((min(a, b), max(a, b)), len(self.entry_of))

    def _order(self) -> list[_Step]:
        neighbours: list[set[int]] = [set() for _ in range(self.size)]
        for a, b in self.entry_of:
            neighbours[a].add(b)
            neighbours[b].add(a)
        left, steps = set(range(self.size)), []
        while left:
            node = min(left, key=lambda n: len(neighbours[n]))
            steps.append(self._step(node, sorted(neighbours[node])))
            for other in neighbours[node]:
                neighbours[other] |= neighbours[node] - {other}
                neighbours[other].discard(node)
            left.remove(node)
        return steps

    def _step(self, node: int, others: list[int]) -> _Step:
        entries = tuple(self._entry(node, other) for other in others)
        fills = tuple(
            (self._entry(others[i], others[j]), i, j)
            for i in range(len(others))
            for j in range(i + 1, len(others))
        )
        return _Step(node, entries, tuple(others), fills)
