"""A mixed-integer linear program, built row by row and solved by HiGHS through scipy."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

Term = tuple[int, float]  # variable, coefficient
State = Literal["solved", "infeasible", "out of time"]
_STATES: dict[int, State] = {0: "solved", 1: "out of time", 2: "infeasible"}


@dataclass(frozen=True)
class Answer:
    """``values`` by variable, none without a solution; no solution costs less than ``bound``."""

    state: State
    values: NDArray[np.float64] | None
    bound: float


class Program:
    """Minimise the cost of the variables subject to rows; rows may be added between two solves."""

    def __init__(self) -> None:
        self._low: list[float] = []
        self._high: list[float] = []
        self._cost: list[float] = []
        self._whole: list[int] = []
        self._entries: list[tuple[int, int, float]] = []
        self._row_low: list[float] = []
        self._row_high: list[float] = []

    def variable(self, low: float, high: float, cost: float = 0.0, whole: bool = False) -> int:
        self._low.append(low)
        self._high.append(high)
        self._cost.append(cost)
        self._whole.append(int(whole))
        return len(self._low) - 1

    def row(self, terms: Iterable[Term], low: float = -math.inf, high: float = math.inf) -> None:
        """low <= sum of coefficient times variable <= high."""
        number = len(self._row_low)
        self._entries += [(number, variable, coefficient) for variable, coefficient in terms]
        self._row_low.append(low)
        self._row_high.append(high)

    def tighten(self, variable: int, low: float = -math.inf, high: float = math.inf) -> None:
        self._low[variable] = max(self._low[variable], low)
        self._high[variable] = min(self._high[variable], high)

    @property
    def costs(self) -> list[Term]:
        return [(variable, cost) for variable, cost in enumerate(self._cost) if cost]

    def solve(self, seconds: float) -> Answer:
        """The least cost, to the last digit that HiGHS tells apart, or what is known after that time."""
        if any(low > high for low, high in zip(self._low, self._high, strict=True)):
            return Answer("infeasible", None, math.inf)
        found = milp(
            np.array(self._cost),
            integrality=np.array(self._whole),
            bounds=Bounds(np.array(self._low), np.array(self._high)),
            constraints=self._constraints(),
            options={"time_limit": max(seconds, 0.01), "mip_rel_gap": 0.0},
        )
        state = _STATES.get(found.status, "out of time")
        bound = math.inf if state == "infeasible" else getattr(found, "mip_dual_bound", None)
        return Answer(state, found.x, -math.inf if bound is None or math.isnan(bound) else float(bound))

    def _constraints(self) -> LinearConstraint:
        rows, columns, values = zip(*self._entries, strict=True) if self._entries else ((), (), ())
        shape = (len(self._row_low), len(self._low))
        matrix = coo_array((values, (rows, columns)), shape=shape).tocsc()
        return LinearConstraint(matrix, np.array(self._row_low), np.array(self._row_high))
