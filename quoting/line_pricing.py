"""Prices of stored lines, worked out anew from their costs and the quote's own rates."""

from collections.abc import Sequence
from dataclasses import replace
from typing import cast

from django.db import transaction
from django.utils import timezone

from quoting.models import Choice, Kind, LineOrigin, Quote, QuoteLine
from quoting.money import ZERO
from quoting.priced_quote import Kind as PureKind
from quoting.priced_quote import PricedLine, PricedQuote, check_sum
from quoting.pricing import price
from quoting.pricing_inputs import CostLine, PricingInputs
from quoting.pricing_rates import pricing_settings
from quoting.totals import line_key, total_of

_COMPUTED = ("cost", "overhead", "contingency", "tax_rate", "price", "computed_price")


def price_now(quote: Quote, lines: Sequence[QuoteLine]) -> PricedQuote:
    """The included lines priced; pure, nothing is stored."""
    included = [line for line in lines if line.choice == Choice.INCLUDED and not is_adjustment(line)]
    return price(_inputs(quote, included))


@transaction.atomic
def price_lines(quote: Quote) -> Quote:
    """Price every line of a draft and store the sums.

    An extra, or an alternative, is priced as its share of the job with all of them in it,
    without the smallest job and the rounding, which the job itself carries.
    """
    quote.lines.filter(origin=LineOrigin.COMPUTED, kind=Kind.ADJUSTMENT).delete()
    lines = list(quote.lines.all())
    result = price_now(quote, lines)
    prices = {line.key: line for line in result.lines}
    prices |= _option_prices(quote, lines)
    for line in lines:
        _apply(line, prices[line_key(line)])
    QuoteLine.objects.bulk_update(lines, _COMPUTED)
    lines += _adjustments(quote, result, lines)
    return _store_totals(quote, result, lines)


def cost_line(line: QuoteLine) -> CostLine:
    return CostLine(
        key=line_key(line),
        section=line.section,
        kind=cast(PureKind, line.kind),
        text=line.text,
        quantity=line.quantity,
        unit=line.unit,
        unit_cost=line.unit_cost,
        where=tuple(line.where),
        how=line.how,
        hours=line.hours,
        priced_on=line.price_from,
        fixed_price=line.price if line.price_fixed else None,
    )


def is_adjustment(line: QuoteLine) -> bool:
    """One that the pricing itself adds: smallest job, rounding."""
    return line.kind == Kind.ADJUSTMENT and line.origin == LineOrigin.COMPUTED


def _inputs(quote: Quote, lines: Sequence[QuoteLine]) -> PricingInputs:
    settings = pricing_settings(quote.basis.rates)
    return PricingInputs(tuple(cost_line(line) for line in lines), settings, timezone.localdate())


def _option_prices(quote: Quote, lines: Sequence[QuoteLine]) -> dict[str, PricedLine]:
    options = {line_key(line) for line in lines if line.choice != Choice.INCLUDED}
    if not options:
        return {}
    inputs = _inputs(quote, lines)
    plain = replace(inputs.settings, round_up_step=ZERO, minimum_job=ZERO)
    result = price(replace(inputs, settings=plain))
    return {line.key: line for line in result.lines if line.key in options}


def _apply(line: QuoteLine, priced: PricedLine) -> None:
    line.cost, line.overhead, line.contingency = priced.cost, priced.overhead, priced.contingency
    line.tax_rate, line.price = priced.tax_percent, priced.price
    if not line.price_fixed:
        line.computed_price = priced.price


def _adjustments(quote: Quote, result: PricedQuote, lines: Sequence[QuoteLine]) -> list[QuoteLine]:
    known = {line_key(line) for line in lines}
    last = max((line.order for line in lines), default=0)
    rows = [
        QuoteLine(
            quote=quote,
            order=last + number,
            key=extra.key,
            section=extra.section,
            kind=Kind.ADJUSTMENT,
            text=extra.text,
            unit_cost=ZERO,
            price=extra.price,
            computed_price=extra.price,
            tax_rate=extra.tax_percent,
        )
        for number, extra in enumerate((x for x in result.lines if x.key not in known), start=1)
    ]
    return QuoteLine.objects.bulk_create(rows)


def _store_totals(quote: Quote, result: PricedQuote, lines: Sequence[QuoteLine]) -> Quote:
    included = [line for line in lines if line.choice == Choice.INCLUDED]
    totals = total_of(included, quote.tax_by)
    check_sum("stored lines", [totals.total], result.total)
    quote.net, quote.tax, quote.total = totals.net, totals.tax, totals.total
    quote.version += 1
    quote.save(update_fields=["net", "tax", "total", "tax_by", "version", "changed_at"])
    return quote
