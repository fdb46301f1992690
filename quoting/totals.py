"""Sums of stored lines, as they are printed: by section, tax by rate, total."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, cast

from quoting.models import Choice, QuoteLine
from quoting.money import ZERO, round_money
from quoting.priced_quote import Kind, PricedLine, TaxAmount, VisibleLine, check_sum
from quoting.tax import with_tax


@dataclass(frozen=True)
class Totals:
    net: Decimal
    taxes: tuple[TaxAmount, ...]
    tax: Decimal
    total: Decimal
    visible: tuple[VisibleLine, ...]

    def __post_init__(self) -> None:
        check_sum("total", (self.net, self.tax), self.total)
        check_sum("net by tax rate", (t.net for t in self.taxes), self.net)
        check_sum("tax by rate", (t.tax for t in self.taxes), self.tax)


def total_of(lines: Sequence[QuoteLine], tax_by: str) -> Totals:
    """Net, tax by rate, and total of these lines, whatever their choice."""
    by = cast(Literal["line", "total"], tax_by)
    _, visible, taxes = with_tax([priced_line(line) for line in lines], by)
    net = round_money(sum((line.price for line in lines), ZERO))
    tax = round_money(sum((row.tax for row in taxes), ZERO))
    return Totals(net, taxes, tax, net + tax, visible)


def priced_line(line: QuoteLine) -> PricedLine:
    """A stored line in the form that the pure pricing speaks."""
    return PricedLine(
        key=line_key(line),
        section=line.section,
        kind=cast(Kind, line.kind),
        text=line.text,
        quantity=line.quantity,
        unit=line.unit,
        unit_cost=line.unit_cost,
        cost=line.cost,
        hours=line.hours,
        overhead=line.overhead,
        contingency=line.contingency,
        price=line.price,
        tax_percent=Decimal(line.tax_rate),
        tax=ZERO,
        fixed=line.price_fixed,
        where=tuple(line.where),
        how=line.how,
    )


def line_key(line: QuoteLine) -> str:
    """Its key, or for a line added by hand one that no other line has."""
    return line.key or f"manual/{line.pk}"


def chosen_lines(lines: Iterable[QuoteLine], chosen: Iterable[int] = ()) -> list[QuoteLine]:
    """What is bought: the included lines, the chosen extras, and alternatives in place of theirs."""
    rows = list(lines)
    wanted = set(chosen)
    picked = [row for row in rows if row.choice != Choice.INCLUDED and row.pk in wanted]
    replaced = {row.alternative_to_id for row in picked if row.choice == Choice.ALTERNATE}
    kept = [row for row in rows if row.choice == Choice.INCLUDED and row.pk not in replaced]
    return kept + picked
