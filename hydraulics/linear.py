"""Linear systems of a stack of cases: one block per case, symmetric unless a regulator holds."""

from typing import Protocol

import numpy as np

from hydraulics.indexed import Floats
from hydraulics.stack import Stack

# unknowns of a case up to which a dense block is quicker than a sparse one
MOST_DENSE = 250
# L/min per kPa that hold a head which nothing else does
LEAST_CONDUCTANCE = 1e-9


class LinearSolver(Protocol):
    def solve(self, conductance: Floats, inflow: Floats, counts: Floats | None = None) -> Floats:
        """Rise of each unknown head, and a zero behind them for the known heads.

        ``counts`` is 0 for rows whose flow does not depend on the head at their start (a
        regulator that holds), else 1; none for 1 throughout.
        """
        ...


def linear_solver(stack: Stack) -> LinearSolver:
    """The quickest for that size."""
    return DenseBlocks(stack) if stack.size <= MOST_DENSE else SparseBlocks(stack)


class SparseBlocks:
    """One sparse matrix of all cases, for networks of many hundred nodes."""

    def __init__(self, stack: Stack) -> None:
        self.unknowns = stack.cases * stack.size
        first, last = stack.start_cell, stack.end_cell
        idle = [
            c * stack.size + i for c, p in enumerate(stack.parts) for i in range(len(p.unknown), stack.size)
        ]
        self.down = np.concatenate((first, last, first, last, idle))
        self.across = np.concatenate((first, last, last, first, idle))
        self.inside = (self.down < self.unknowns) & (self.across < self.unknowns)
        self.ones = np.ones(len(idle))

    def solve(self, conductance: Floats, inflow: Floats, counts: Floats | None = None) -> Floats:
        # scipy takes a tenth of a second to load, which gardens need not wait for
        from scipy.sparse import csc_matrix, identity
        from scipy.sparse.linalg import splu

        weights, at = _weights(conductance, counts, self.ones), self.inside
        shape = (self.unknowns, self.unknowns)
        matrix = csc_matrix((weights[at], (self.down[at], self.across[at])), shape)
        try:
            found: Floats = splu(matrix).solve(inflow)
        except RuntimeError:  # exactly singular
            found = splu(matrix + LEAST_CONDUCTANCE * identity(self.unknowns, format="csc")).solve(inflow)
        return np.append(found, 0.0)


def _weights(conductance: Floats, counts: Floats | None, ones: Floats) -> Floats:
    """What each row adds at (start, start), (end, end), (start, end) and (end, start)."""
    of_start = conductance if counts is None else counts * conductance
    return np.concatenate((of_start, conductance, -conductance, -of_start, ones))


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

    def solve(self, conductance: Floats, inflow: Floats, counts: Floats | None = None) -> Floats:
        n = self.size
        rise = np.zeros(self.cases * n + 1)
        if n:
            flat: Floats = np.bincount(
                self.places, _weights(conductance, counts, self.ones), self.cells
            ).astype(float, copy=False)
            blocks = flat[:-1].reshape(self.cases, n, n)
            right = inflow.reshape(self.cases, n, 1)
            try:
                rise[:-1] = np.linalg.solve(blocks, right).reshape(-1)
            except np.linalg.LinAlgError:
                rise[:-1] = _solve_with_floor(blocks, right).reshape(-1)
        return rise


def _solve_with_floor(blocks: Floats, right: Floats) -> Floats:
    """For blocks in which some head is bound to nothing, as behind a check valve the wrong way round."""
    try:
        solved = np.linalg.solve(blocks + LEAST_CONDUCTANCE * np.eye(blocks.shape[1]), right)
        return np.asarray(solved, dtype=float)
    except np.linalg.LinAlgError:
        # figures beyond all reason; nothing settles on these, and the caller says where
        return np.full(right.shape, np.nan)
