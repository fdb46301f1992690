"""What goes into a price: cost lines and the company's pricing settings."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Literal

from quoting.money import ZERO, exact, round_money
from quoting.priced_quote import Kind, Target


@dataclass(frozen=True)
class CostLine:
    """Something that costs us money, and the plan entities that it serves.

    ``cost`` is quantity times unit cost, to the cent; a ``unit_cost`` of None is a price that
    nobody has, and costs nothing until somebody has. ``hours`` carry overhead. ``fixed_price``
    is a price that a person set by hand: it stands as it is.
    """

    key: str
    section: str
    kind: Kind
    text: str
    quantity: Decimal
    unit: str
    unit_cost: Decimal | None
    where: tuple[str, ...] = ()
    how: str = ""
    hours: Decimal = ZERO
    priced_on: date | None = None
    fixed_price: Decimal | None = None

    def __post_init__(self) -> None:
        for value in (self.quantity, self.hours, self.unit_cost, self.fixed_price):
            if value is not None:
                exact(value)
        if self.quantity < 0 or self.hours < 0 or (self.unit_cost or ZERO) < 0:
            raise ValueError(f"{self.text}: a quantity, an hour or a cost is not negative")

    @property
    def cost(self) -> Decimal:
        return round_money(self.quantity * self.unit_cost) if self.unit_cost is not None else ZERO


@dataclass(frozen=True)
class Discount:
    """Off the price before tax: an amount, or a percentage of it."""

    label: str
    amount: Decimal = ZERO
    percent: Decimal = ZERO


@dataclass(frozen=True)
class StageShare:
    label: str
    percent: Decimal  # of the total with tax


def _targets() -> dict[Kind, Target]:
    # common practice, no source
    own = Target("margin", Decimal("0.15"))
    passed_on = Target("markup", Decimal("0.15"))
    at_cost = Target("markup", Decimal(0))
    return {"labour": own, "material": own, "hire": own, "subcontract": passed_on, "permit": at_cost}


def _stages() -> tuple[StageShare, ...]:
    # common practice, no source
    return (
        StageShare("Deposit, when you accept", Decimal(30)),
        StageShare("When the main is laid and tested", Decimal(40)),
        StageShare("When every zone runs", Decimal(20)),
        StageShare("When the last point is closed", Decimal(10)),
    )


@dataclass(frozen=True)
class PricingSettings:
    """Every default is common practice, no source; a company sets its own."""

    overhead_per_hour: Decimal = Decimal("31.00")
    contingency_percent: Decimal = Decimal(5)
    contingency_cap_percent: Decimal = Decimal(20)
    targets: Mapping[Kind, Target] = field(default_factory=_targets)
    minimum_job: Decimal = ZERO
    round_up_step: Decimal | None = Decimal(5)  # none: 5, 10 or 50 by size
    tax_percent: Mapping[Kind, Decimal] = field(default_factory=dict)
    tax_by: Literal["line", "total"] = "total"
    stages: tuple[StageShare, ...] = field(default_factory=_stages)  # the first is the deposit
    deposit_cap_percent: Decimal | None = None
    deposit_cap_amount: Decimal | None = None
    price_age_warn_days: int = 60
    price_age_stop_days: int = 90
    gross_margin_warn: Decimal = Decimal("0.35")
    gross_margin_stop: Decimal = Decimal("0.25")

    def tax_of(self, kind: Kind) -> Decimal:
        """An adjustment is taxed as own work."""
        return self.tax_percent.get("labour" if kind == "adjustment" else kind, ZERO)


@dataclass(frozen=True)
class PricingInputs:
    lines: tuple[CostLine, ...]
    settings: PricingSettings
    today: date
    discount: Discount | None = None


# share of labour and materials in percent, added up; common practice, no source
CONTINGENCY_DRIVERS: Mapping[str, Decimal] = {
    "base": Decimal(3),
    "no_probe_holes": Decimal(4),
    "estimated_boundary": Decimal(2),
    "private_lines_unknown": Decimal(3),
    "roots_or_rock": Decimal(4),
    "several_bores": Decimal(2),
    "old_system_reused": Decimal(5),
    "provisional_supply": Decimal(5),
    "wet_season": Decimal(2),
    "new_subcontractor": Decimal(1),
}


def contingency_for(drivers: tuple[str, ...], cap: Decimal = Decimal(20)) -> Decimal:
    """Percent for what is known to be uncertain: the drivers added to the base, capped."""
    named = dict.fromkeys(("base", *drivers))
    return min(cap, sum((CONTINGENCY_DRIVERS[name] for name in named), ZERO))
