"""What a sizing ends with."""

from dataclasses import dataclass
from typing import Literal

from hydraulics.network import Solution
from hydraulics.sizing.proving import Shortfall
from hydraulics.sizing.task import Candidate

Outcome = Literal["least", "good", "impossible", "open"]


@dataclass(frozen=True)
class NetworkSizing:
    """``outcome`` says how far the search came.

    - least: ``choice`` meets every need, and nothing that does costs less (``gap`` is 0).
    - good: ``choice`` meets every need; time ran out before it was shown to cost least. What costs
      least lies between ``lower_bound`` and ``cost``.
    - impossible: no choice meets the needs; ``shortfalls`` are those of the widest pipes allowed.
    - open: time ran out with neither a choice nor a proof; ``shortfalls`` as before.

    ``solutions`` are the cases of the task, solved with the choice.
    """

    outcome: Outcome
    choice: dict[str, Candidate]
    cost: float
    lower_bound: float
    shortfalls: tuple[Shortfall, ...]
    solutions: tuple[Solution, ...]
    rounds: int
    seconds: float
    first_cost: float | None = None

    @property
    def is_found(self) -> bool:
        return self.outcome in ("least", "good")

    @property
    def gap(self) -> float:
        """What might at most still be saved, as a share of the cost."""
        if not self.is_found or self.cost <= 0:
            return 0.0
        return max(0.0, (self.cost - self.lower_bound) / self.cost)
