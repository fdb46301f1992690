"""What a person should see before a quote goes out (limits: common practice, no source)."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from hydraulics.findings import Severity
from quoting.money import ZERO, price_at_margin, price_at_markup, round_money
from quoting.priced_quote import OWN_KINDS, PricedQuote, PriceFinding
from quoting.pricing_inputs import CostLine, PricingInputs
from quoting.takeoff.quantities import plain

PRACTICE = "common practice, no source"


def price_findings(quote: PricedQuote, inputs: PricingInputs) -> tuple[PriceFinding, ...]:
    found = [*_missing(inputs.lines), *_ages(inputs), *_margins(quote, inputs)]
    found += [*_markup_for_margin(quote, inputs), *_deposit(quote, inputs), *_contingency(inputs)]
    return tuple(found)


def _missing(lines: Sequence[CostLine]) -> Iterator[PriceFinding]:
    for line in lines:
        if line.unit_cost is None and line.fixed_price is None:
            yield PriceFinding(
                "price.missing", Severity.STOP, (line.key,), ZERO, ZERO, "",
                f"Nobody has a price for “{line.text}”: add one to the price book or set it here.", PRACTICE,
            )  # fmt: skip


def _ages(inputs: PricingInputs) -> Iterator[PriceFinding]:
    warn, stop = inputs.settings.price_age_warn_days, inputs.settings.price_age_stop_days
    for line in inputs.lines:
        if line.priced_on is None or line.unit_cost is None:
            continue
        days = (inputs.today - line.priced_on).days
        if days > warn:
            severity, limit = (Severity.STOP, stop) if days > stop else (Severity.WARN, warn)
            yield PriceFinding(
                "price.old", severity, (line.key,), Decimal(days), Decimal(limit), "days",
                f"The price of “{line.text}” is {days} days old: ask the supplier again.", PRACTICE,
            )  # fmt: skip


def _margins(quote: PricedQuote, inputs: PricingInputs) -> Iterator[PriceFinding]:
    warn, stop = inputs.settings.gross_margin_warn, inputs.settings.gross_margin_stop
    margin = quote.gross_margin
    if not quote.net or margin >= warn:
        return
    severity, limit = (Severity.STOP, stop) if margin < stop else (Severity.WARN, warn)
    yield PriceFinding(
        "margin.gross.low", severity, (), round_money(margin * 100, 1), limit * 100, "%",
        f"{round_money(margin * 100, 1)} % of the price is left before overhead; "
        f"{round_money(limit * 100, 0)} % is the least. Look at hours, contingency and discount.", PRACTICE,
    )  # fmt: skip


def _markup_for_margin(quote: PricedQuote, inputs: PricingInputs) -> Iterator[PriceFinding]:
    """What the same figure gives when the two are mixed up, where one target holds for all own work."""
    targets = {inputs.settings.targets.get(kind) for kind in OWN_KINDS}
    target = next(iter(targets))
    if len(targets) > 1 or target is None or not 0 < target.share < 1 or not quote.cost.own:
        return
    share, own = target.share, quote.cost.own
    apart = price_at_margin(own, share) - price_at_markup(own, share)
    margin, markup = _percent(target.margin), _percent(target.markup)
    sentence = (
        f"A margin of {margin} % is a markup of {markup} %. Taken as a markup, the same figure would "
        f"give away {apart}."
        if target.method == "margin"
        else f"A markup of {markup} % leaves a margin of {margin} %. As a margin, the same figure would "
        f"bring {apart} more."
    )
    yield PriceFinding("margin.not_markup", Severity.NOTE, (), apart, ZERO, "money", sentence, PRACTICE)


def _percent(share: Decimal) -> str:
    return f"{round_money(share * 100, 1)}"


def _deposit(quote: PricedQuote, inputs: PricingInputs) -> Iterator[PriceFinding]:
    if not quote.stages:
        return
    asked = round_money(quote.total * quote.stages[0].percent / 100)
    if len(quote.stages) > 1 and quote.deposit < asked:
        yield PriceFinding(
            "deposit.capped", Severity.WARN, (), asked, quote.deposit, "money",
            "The law's cap lowers the deposit; the last payment takes the rest.",
            "the cap that the company set from its local rules",
        )  # fmt: skip


def _contingency(inputs: PricingInputs) -> Iterator[PriceFinding]:
    asked, cap = inputs.settings.contingency_percent, inputs.settings.contingency_cap_percent
    if asked > cap:
        yield PriceFinding(
            "contingency.capped", Severity.WARN, (), asked, cap, "%",
            f"Contingency stops at {plain(cap)} %: find out more before you quote instead.", PRACTICE,
        )  # fmt: skip
