"""What a sizing says of a plan: which pipes change, what that costs and saves, and what is proven."""

from dataclasses import asdict, dataclass
from decimal import Decimal
from typing import Any

from design.canonical import dump_plan
from design.document import Plan
from design.sizing_candidates import LeftPipe
from hydraulics.sizing.result import Outcome

CENT = Decimal("0.01")


@dataclass(frozen=True)
class PipeChange:
    """A pipe that takes another part, with its metres and its price by the metre before and after."""

    pipe: str
    role: str
    before: str
    after: str
    length_m: float
    cost_before: Decimal
    cost_after: Decimal


@dataclass(frozen=True)
class WorstHead:
    """The head that comes nearest to its least pressure, or lies farthest below it, over all cases."""

    head: str
    case: str
    pressure_kpa: float
    least_kpa: float


@dataclass(frozen=True)
class SizingResult:
    """``plan`` is the sized plan, none where there is no answer.

    Costs are of the pipes looked at, metres times price; those in ``left`` are not in them. Nothing
    costs less than ``lower_bound``; ``gap_pct`` is what might at most still be saved. ``head_share``
    is the share of each head's least pressure that was kept. ``before`` and ``shortfalls`` are
    sentences on what the plan as drawn, and the widest pipes allowed, do not meet.
    """

    outcome: Outcome
    plan: Plan | None
    changes: tuple[PipeChange, ...]
    cost_before: Decimal
    cost_after: Decimal
    lower_bound: Decimal
    gap_pct: float
    proof: str
    worst_before: WorstHead | None
    worst_after: WorstHead | None
    before: tuple[str, ...]
    shortfalls: tuple[str, ...]
    left: tuple[LeftPipe, ...]
    head_share: float
    rounds: int
    seconds: float

    @property
    def is_found(self) -> bool:
        return self.plan is not None

    @property
    def saving(self) -> Decimal:
        return self.cost_before - self.cost_after if self.is_found else Decimal(0)


def sizing_to_dict(result: SizingResult) -> dict[str, Any]:
    """As JSON values: money as text with two decimals, the plan as its document."""
    dumped = asdict(result) | {"saving": result.saving}
    dumped["plan"] = dump_plan(result.plan) if result.plan else None
    return {name: _plain(value) for name, value in dumped.items()}


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return str(value.quantize(CENT))
    if isinstance(value, dict):
        return {name: _plain(item) for name, item in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    return value
