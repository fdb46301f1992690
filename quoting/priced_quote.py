"""What a price consists of. Every type here refuses numbers that do not add up."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from hydraulics.findings import Severity
from quoting.money import (
    ZERO,
    Exact,
    exact,
    margin_of_markup,
    markup_of_margin,
    price_at_margin,
    price_at_markup,
)

Kind = Literal["material", "labour", "hire", "subcontract", "permit", "adjustment"]
OWN_KINDS: tuple[Kind, ...] = ("labour", "material", "hire")
PASSED_ON_KINDS: tuple[Kind, ...] = ("subcontract", "permit")


class SumsDiffer(ValueError):
    """Parts that do not sum to their whole: a fault of the program, never of the person."""


def check_sum(name: str, parts: Iterable[Decimal], whole: Decimal) -> None:
    total = sum(parts, ZERO)
    if total != whole:
        raise SumsDiffer(f"{name}: the parts make {total}, not {whole}")


@dataclass(frozen=True)
class Target:
    """How a cost becomes a price. ``share`` is of the price for a margin, of the cost for a markup."""

    method: Literal["margin", "markup"]
    share: Decimal

    def price(self, cost: Exact) -> Decimal:
        return (
            price_at_margin(cost, self.share)
            if self.method == "margin"
            else price_at_markup(cost, self.share)
        )

    @property
    def margin(self) -> Decimal:
        return self.share if self.method == "margin" else margin_of_markup(self.share)

    @property
    def markup(self) -> Decimal:
        return self.share if self.method == "markup" else markup_of_margin(self.share)


@dataclass(frozen=True)
class PricedLine:
    """An internal line: what it costs us, and its share of the price. Never shown to a customer."""

    key: str
    section: str
    kind: Kind
    text: str
    quantity: Decimal
    unit: str
    unit_cost: Decimal | None  # none: nobody has a price for it
    cost: Decimal
    hours: Decimal
    overhead: Decimal
    contingency: Decimal
    price: Decimal
    tax_percent: Decimal
    tax: Decimal
    fixed: bool
    where: tuple[str, ...]
    how: str

    @property
    def full_cost(self) -> Decimal:
        return self.cost + self.overhead + self.contingency


@dataclass(frozen=True)
class VisibleLine:
    """What a customer reads: one amount for all of a section that is taxed alike.

    ``text`` is set for an adjustment, such as a discount; else the section names the line.
    """

    section: str
    text: str
    amount: Decimal
    tax_percent: Decimal
    tax: Decimal
    where: tuple[str, ...]


@dataclass(frozen=True)
class TaxAmount:
    percent: Decimal
    net: Decimal
    tax: Decimal


@dataclass(frozen=True)
class Stage:
    """One payment. ``percent`` is what was asked for; a cap or the last cent may move the amount."""

    label: str
    percent: Decimal
    amount: Decimal


@dataclass(frozen=True)
class CostSummary:
    """Where the money goes, before any earnings."""

    labour: Decimal
    overhead: Decimal
    material: Decimal
    hire: Decimal
    contingency: Decimal
    own: Decimal
    subcontract: Decimal
    permit: Decimal
    hours: Decimal

    def __post_init__(self) -> None:
        parts = (self.labour, self.overhead, self.material, self.hire, self.contingency)
        check_sum("own cost", parts, self.own)

    @property
    def direct(self) -> Decimal:
        """All cost but overhead; contingency counts as spent."""
        return self.own - self.overhead + self.subcontract + self.permit


@dataclass(frozen=True)
class PriceFinding:
    """One thing about a price that a person has to see; like a finding of the check, in money."""

    code: str
    severity: Severity
    where: tuple[str, ...]  # keys of lines
    measured: Decimal
    limit: Decimal
    unit: str
    sentence: str
    source: str


@dataclass(frozen=True)
class PricedQuote:
    """Lines, what the customer sees of them, tax, total and stages."""

    lines: tuple[PricedLine, ...]
    visible: tuple[VisibleLine, ...]
    cost: CostSummary
    own_price: Decimal  # before the smallest job, discount and rounding
    computed: Decimal  # sum before the smallest job, discount and rounding
    net: Decimal
    rounding: Decimal  # what rounding up added
    adjusted_key: str  # of the line that took it up
    taxes: tuple[TaxAmount, ...]
    tax: Decimal
    total: Decimal
    stages: tuple[Stage, ...]
    findings: tuple[PriceFinding, ...]

    def __post_init__(self) -> None:
        check_sum("net price", (line.price for line in self.lines), self.net)
        check_sum("sections", (line.amount for line in self.visible), self.net)
        check_sum("net by tax rate", (t.net for t in self.taxes), self.net)
        check_sum("tax by rate", (t.tax for t in self.taxes), self.tax)
        check_sum("tax by line", (line.tax for line in self.lines), self.tax)
        check_sum("tax by section", (line.tax for line in self.visible), self.tax)
        check_sum("total", (self.net, self.tax), self.total)
        if self.stages:
            check_sum("stages", (stage.amount for stage in self.stages), self.total)
        own = (line.cost for line in self.lines if line.kind == "labour")
        check_sum("labour", own, self.cost.labour)

    @property
    def gross_profit(self) -> Decimal:
        """What is left of the net price after all direct cost, before overhead."""
        return self.net - self.cost.direct

    @property
    def gross_margin(self) -> Decimal:
        return self.gross_profit / self.net if self.net else ZERO

    @property
    def margin_after_overhead(self) -> Decimal:
        return (self.gross_profit - self.cost.overhead) / self.net if self.net else ZERO

    @property
    def deposit(self) -> Decimal:
        return self.stages[0].amount if self.stages else ZERO

    def of_section(self, section: str) -> tuple[PricedLine, ...]:
        return tuple(line for line in self.lines if line.section == section)


def percent(value: Exact) -> Decimal:
    """A percentage from 0 to 100 as a decimal."""
    number = exact(value)
    if not 0 <= number <= 100:
        raise ValueError("a percentage lies between 0 and 100")
    return number
