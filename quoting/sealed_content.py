"""What is sealed: the offer as the customer reads it, and beside it all that it rests on."""

from typing import Any

from design.canonical import dump_plan
from quoting.drawings import customer_svg
from quoting.models import QuoteLine
from quoting.offer import OfferSource
from quoting.scope_words import Subject

_LINE_FIELDS = (
    "id", "order", "key", "origin", "section", "kind", "text", "internal_text", "quantity", "unit",
    "unit_cost", "cost", "hours", "computed_price", "price", "price_fixed", "price_reason", "tax_rate",
    "supplier", "price_from", "where", "how", "choice", "alternative_to_id",
)  # fmt: skip


def sealed_content(source: OfferSource, offer: dict[str, Any]) -> dict[str, Any]:
    """Plain JSON values. ``offer`` and ``drawing`` are for the customer, the rest is ours."""
    subject, quote = source.subject, source.quote
    return {
        "format": "sealed/1",
        "offer": offer,
        "drawing": customer_svg(subject),
        "plan": dump_plan(subject.plan),
        "plan_digest": quote.plan.digest,
        "report": quote.basis.report,
        "rates": quote.basis.rates,
        "lines": [_line(line) for line in source.lines],
        "parts": _parts(subject),
    }


def _parts(subject: Subject) -> dict[str, Any]:
    """Technical data of every part that the plan names, as the check used them."""
    layout, supply = subject.plan.layout, subject.plan.supply
    named = (*layout.nodes, *layout.pipes, *layout.cables, *layout.sleeves)
    codes = {getattr(entity, "part", None) for entity in named} | {supply.meter, supply.backflow}
    known = sorted(code for code in codes if code and code in subject.parts)
    return {code: subject.parts[code].model_dump(mode="json") for code in known}


def _line(line: QuoteLine) -> dict[str, Any]:
    values = {name: getattr(line, name) for name in _LINE_FIELDS}
    plain = (str, int, bool, list, type(None))
    return {name: value if isinstance(value, plain) else str(value) for name, value in values.items()}
