"""Linear systems of a stack of cases: one dense symmetric block per case."""

from typing import Protocol

import numpy as np

from hydraulics.indexed import Floats
from hydraulics.stack import Stack


class LinearSolver(Protocol):
    def solve(self, conductance: Floats, inflow: Floats) -> Floats:
        """Rise of each unknown head, and a zero behind them for the known heads."""
        ...


class DenseBlocks:
    """Blocks are small (tens of unknowns), so dense elimination beats any bookkeeping."""

    def __init__(self, stack: Stack) -> None:
        self.cases, self.size = stack.cases, stack.size
        n, unknowns = stack.size, stack.cases * stack.size
        first, last = stack.start_cell, stack.end_cell
        spare = stack.cases * n * n
        a, b = first % max(n, 1), last % max(n, 1)
        base = stack.case_of_row * n * n
        on_a = np.where(first < unknowns, base + a * n + a, spare)
        on_b = np.where(last < unknowns, base + b * n + b, spare)
        both = (first < unknowns) & (last < unknowns)
        ab = np.where(both, base + a * n + b, spare)
        ba = np.where(both, base + b * n + a, spare)
        fill = [c * n * n + i * (n + 1) for c, p in enumerate(stack.parts) for i in range(len(p.unknown), n)]
        self.places = np.concatenate((on_a, on_b, ab, ba, np.array(fill, dtype=np.intp)))
        self.ones = np.ones(len(fill))
        self.cells = spare + 1

    def solve(self, conductance: Floats, inflow: Floats) -> Floats:
        n = self.size
        rise = np.zeros(self.cases * n + 1)
        if n:
            weights = np.concatenate((conductance, conductance, -conductance, -conductance, self.ones))
            flat = np.bincount(self.places, weights, self.cells)
            blocks = flat[:-1].reshape(self.cases, n, n)
            try:
                rise[:-1] = np.linalg.solve(blocks, inflow.reshape(self.cases, n, 1)).reshape(-1)
            except np.linalg.LinAlgError:
                # figures beyond all reason; nothing settles on these, and the caller says where
                rise[:-1] = np.nan
        return rise
