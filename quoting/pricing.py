"""From cost to price, in one order of steps that ``docs/pricing.md`` tells in prose."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.money import ZERO, round_money, round_up_to_step, spread
from quoting.payment_stages import payment_stages
from quoting.price_findings import price_findings
from quoting.priced_quote import (
    OWN_KINDS,
    PASSED_ON_KINDS,
    CostSummary,
    Kind,
    PricedLine,
    PricedQuote,
    Target,
)
from quoting.pricing_inputs import (
    CostLine,
    Discount,
    PricingInputs,
    PricingSettings,
    StageShare,
    contingency_for,
)
from quoting.tax import with_tax

__all__ = [
    "CostLine",
    "Discount",
    "PricedQuote",
    "PricingInputs",
    "PricingSettings",
    "StageShare",
    "Target",
    "contingency_for",
    "price",
]

AT_COST = Target("markup", ZERO)
# up to that price, round up to that step; common practice, no source
STEPS_BY_SIZE = ((Decimal(2000), Decimal(5)), (Decimal(20000), Decimal(10)), (None, Decimal(50)))


def price(inputs: PricingInputs) -> PricedQuote:
    """Price the lines. The sums of the result hold to the cent, or SumsDiffer is raised."""
    settings = inputs.settings
    lines = _with_contingency(_with_overhead(_start(inputs.lines, settings), settings), settings)
    cost = _summary(lines)
    lines = _priced(lines, settings)
    own_price = sum((line.price for line in lines if line.kind in OWN_KINDS), ZERO)
    computed = sum((line.price for line in lines), ZERO)
    lines = _with_adjustments(lines, inputs)
    lines, rounding, adjusted_key = _rounded_up(lines, settings)
    taxed, visible, taxes = with_tax(lines, settings.tax_by)
    net, tax = sum((line.price for line in taxed), ZERO), sum((t.tax for t in taxes), ZERO)
    quote = PricedQuote(
        lines=taxed,
        visible=visible,
        cost=cost,
        own_price=own_price,
        computed=computed,
        net=net,
        rounding=rounding,
        adjusted_key=adjusted_key,
        taxes=taxes,
        tax=tax,
        total=net + tax,
        stages=payment_stages(net + tax, settings),
        findings=(),
    )
    return replace(quote, findings=price_findings(quote, inputs))


def _start(lines: Sequence[CostLine], settings: PricingSettings) -> list[PricedLine]:
    return [
        PricedLine(
            key=line.key,
            section=line.section,
            kind=line.kind,
            text=line.text,
            quantity=line.quantity,
            unit=line.unit,
            unit_cost=line.unit_cost,
            cost=line.cost,
            hours=line.hours,
            overhead=ZERO,
            contingency=ZERO,
            price=ZERO if line.fixed_price is None else round_money(line.fixed_price),
            tax_percent=settings.tax_of(line.kind),
            tax=ZERO,
            fixed=line.fixed_price is not None,
            where=line.where,
            how=line.how,
        )
        for line in lines
    ]


def _with_overhead(lines: list[PricedLine], settings: PricingSettings) -> list[PricedLine]:
    """Overhead rides on the hours: worked out once for all of them, then spread by them."""
    if not lines:
        return lines
    hours = [line.hours for line in lines]
    parts = spread(round_money(sum(hours, ZERO) * settings.overhead_per_hour), hours)
    return [replace(line, overhead=part) for line, part in zip(lines, parts, strict=True)]


def _with_contingency(lines: list[PricedLine], settings: PricingSettings) -> list[PricedLine]:
    """A share of labour and materials, worked out once, then spread over them by cost."""
    if not lines:
        return lines
    share = min(settings.contingency_percent, settings.contingency_cap_percent) / 100
    base = [line.cost if line.kind in ("labour", "material") else ZERO for line in lines]
    parts = spread(round_money(sum(base, ZERO) * share), base)
    return [replace(line, contingency=part) for line, part in zip(lines, parts, strict=True)]


def _summary(lines: Sequence[PricedLine]) -> CostSummary:
    def cost(kind: Kind) -> Decimal:
        return sum((line.cost for line in lines if line.kind == kind), ZERO)

    overhead = sum((line.overhead for line in lines), ZERO)
    contingency = sum((line.contingency for line in lines), ZERO)
    return CostSummary(
        labour=cost("labour"),
        overhead=overhead,
        material=cost("material"),
        hire=cost("hire"),
        contingency=contingency,
        own=sum((cost(kind) for kind in OWN_KINDS), ZERO) + overhead + contingency,
        subcontract=cost("subcontract"),
        permit=cost("permit"),
        hours=sum((line.hours for line in lines), ZERO),
    )


def _priced(lines: list[PricedLine], settings: PricingSettings) -> list[PricedLine]:
    """Own work: one price per target, spread over its lines. What is passed on: line by line."""
    priced = list(lines)
    for target in dict.fromkeys(settings.targets.get(kind, AT_COST) for kind in OWN_KINDS):
        pool = [i for i, line in enumerate(lines) if _in_pool(line, target, settings)]
        costs = [lines[i].full_cost for i in pool]
        if not sum(costs, ZERO):
            continue
        for i, part in zip(pool, spread(target.price(sum(costs, ZERO)), costs), strict=True):
            priced[i] = replace(lines[i], price=part)
    for i, line in enumerate(lines):
        if line.kind in PASSED_ON_KINDS and not line.fixed:
            priced[i] = replace(line, price=settings.targets.get(line.kind, AT_COST).price(line.full_cost))
    return priced


def _in_pool(line: PricedLine, target: Target, settings: PricingSettings) -> bool:
    own = line.kind in OWN_KINDS and not line.fixed
    return own and settings.targets.get(line.kind, AT_COST) == target


def _with_adjustments(lines: list[PricedLine], inputs: PricingInputs) -> list[PricedLine]:
    """The smallest job first, then the discount: each a line of its own."""
    settings = inputs.settings
    short = settings.minimum_job - sum((line.price for line in lines), ZERO)
    if lines and short > 0:
        lines = [*lines, _adjustment("smallest-job", "To our smallest job", short, settings.tax_of("labour"))]
    if inputs.discount is None:
        return lines
    before = sum((line.price for line in lines), ZERO)
    off = round_money(inputs.discount.amount + before * inputs.discount.percent / 100)
    if off > before:
        raise ValueError("The discount is more than the price; make it smaller.")
    return [*lines, *_discount_lines(lines, inputs.discount.label, off)]


def _discount_lines(lines: Sequence[PricedLine], label: str, off: Decimal) -> list[PricedLine]:
    """One per tax rate, in proportion to what is taxed at it, so that the tax falls with the price."""
    rates = list(dict.fromkeys(line.tax_percent for line in lines))
    if not off:
        return []
    nets = [sum((line.price for line in lines if line.tax_percent == rate), ZERO) for rate in rates]
    parts = zip(rates, spread(off, nets), strict=True)
    return [_adjustment(f"discount-{rate.normalize():f}", label, -part, rate) for rate, part in parts if part]


def _adjustment(key: str, text: str, amount: Decimal, tax_percent: Decimal) -> PricedLine:
    return PricedLine(
        key=key,
        section="other",
        kind="adjustment",
        text=text,
        quantity=Decimal(1),
        unit="each",
        unit_cost=ZERO,
        cost=ZERO,
        hours=ZERO,
        overhead=ZERO,
        contingency=ZERO,
        price=round_money(amount),
        tax_percent=tax_percent,
        tax=ZERO,
        fixed=True,
        where=(),
        how="",
    )


def _rounded_up(lines: list[PricedLine], settings: PricingSettings) -> tuple[list[PricedLine], Decimal, str]:
    """The whole price up to the step, once; the dearest line of own work takes up the difference."""
    before = sum((line.price for line in lines), ZERO)
    added = round_up_to_step(before, rounding_step(before, settings)) - before
    if not added:
        return lines, ZERO, ""
    own = [i for i, line in enumerate(lines) if line.kind in OWN_KINDS and not line.fixed]
    if not own:
        line = _adjustment("rounding", "Rounding", added, settings.tax_of("labour"))
        return [*lines, line], added, line.key
    chosen = max(own, key=lambda i: (lines[i].price, -i))
    adjusted = list(lines)
    adjusted[chosen] = replace(lines[chosen], price=lines[chosen].price + added)
    return adjusted, added, lines[chosen].key


def rounding_step(amount: Decimal, settings: PricingSettings) -> Decimal:
    """The company's step, or 5, 10 or 50 by the size of the price."""
    if settings.round_up_step is not None:
        return settings.round_up_step
    return next(step for limit, step in STEPS_BY_SIZE if limit is None or amount <= limit)
