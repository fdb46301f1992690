"""The cost side of a quote, from its stored lines: what it costs us and what is left."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from quoting.models import Choice, Kind, QuoteLine
from quoting.money import ZERO


@dataclass(frozen=True)
class KindRow:
    """One kind of line: its cost with overhead and contingency, its price, and what that earns."""

    label: str
    cost: Decimal
    price: Decimal

    @property
    def margin(self) -> Decimal | None:
        """Share of the price."""
        return (self.price - self.cost) / self.price if self.price else None

    @property
    def markup(self) -> Decimal | None:
        """Share of the cost."""
        return (self.price - self.cost) / self.cost if self.cost else None


@dataclass(frozen=True)
class CostSide:
    rows: tuple[KindRow, ...]
    whole: KindRow
    direct: Decimal  # without overhead; contingency counts as spent
    overhead: Decimal
    contingency: Decimal
    hours: Decimal

    @property
    def before_overhead(self) -> Decimal | None:
        """Gross margin: what is left of the price after direct cost."""
        return (self.whole.price - self.direct) / self.whole.price if self.whole.price else None


def cost_side(lines: Sequence[QuoteLine]) -> CostSide:
    """Of the included lines."""
    included = [line for line in lines if line.choice == Choice.INCLUDED]
    rows = tuple(_row(kind, included) for kind in Kind if any(line.kind == kind for line in included))
    overhead = sum((line.overhead for line in included), ZERO)
    return CostSide(
        rows=rows,
        whole=KindRow("All of it", sum((r.cost for r in rows), ZERO), sum((r.price for r in rows), ZERO)),
        direct=sum((line.full_cost for line in included), ZERO) - overhead,
        overhead=overhead,
        contingency=sum((line.contingency for line in included), ZERO),
        hours=sum((line.hours for line in included), ZERO),
    )


def _row(kind: Kind, lines: Sequence[QuoteLine]) -> KindRow:
    mine = [line for line in lines if line.kind == kind]
    return KindRow(
        kind.label, sum((line.full_cost for line in mine), ZERO), sum((line.price for line in mine), ZERO)
    )
