"""Editing the lines of a draft by hand."""

from decimal import Decimal

from django.db import transaction
from django.db.models import Max

from office import audit
from office.models import Person
from office.versions import Clash, save_version
from quoting.drafting import draft_locked
from quoting.errors import LineGone
from quoting.line_pricing import price_lines
from quoting.models import Kind, LineOrigin, Quote, QuoteLine
from quoting.money import round_money
from quoting.pricing_rates import hourly_cost


@transaction.atomic
def add_line(*, quote: Quote, by: Person, fields: dict[str, object]) -> QuoteLine:
    """A line of our own at the end of the draft; then everything is priced anew."""
    stored = draft_locked(quote, None)
    last = stored.lines.aggregate(last=Max("order"))["last"] or 0
    line = QuoteLine(quote=stored, origin=LineOrigin.MANUAL, order=last + 10, **fields)
    _settle(line, stored)
    line.full_clean()
    line.save()
    price_lines(stored)
    audit.record(by=by, verb="quote.line.added", subject=stored, detail={"line": line.pk, "text": line.text})
    line.refresh_from_db()
    return line


@transaction.atomic
def edit_line(*, line: QuoteLine, began_from: int, by: Person, fields: dict[str, object]) -> QuoteLine:
    """Change a line; then everything is priced anew. Raises Clash or ValidationError."""
    stored = draft_locked(line.quote, None)
    _still_there(line)
    changed = QuoteLine(**{**_values(line), **fields})
    _settle(changed, stored)
    settled = ("hours", "unit_cost", "price", "price_reason")
    fields = {**fields, **{name: getattr(changed, name) for name in settled}}
    saved = save_version(line, began_from=began_from, fields=fields)
    price_lines(stored)
    detail = {"line": line.pk, "fields": sorted(fields), "reason": saved.price_reason}
    audit.record(by=by, verb="quote.line.edited", subject=stored, detail=detail)
    saved.refresh_from_db()
    return saved


@transaction.atomic
def remove_line(*, line: QuoteLine, by: Person, began_from: int | None = None) -> None:
    """Take a line out; then everything is priced anew. Raises Clash if it was changed since."""
    stored = draft_locked(line.quote, None)
    current = _still_there(line)
    if began_from is not None and current.version != began_from:
        raise Clash(current)
    detail = {"line": line.pk, "text": line.text, "price": str(line.price)}
    QuoteLine.objects.filter(pk=line.pk, quote=stored).delete()
    price_lines(stored)
    audit.record(by=by, verb="quote.line.removed", subject=stored, detail=detail)


def _still_there(line: QuoteLine) -> QuoteLine:
    current = QuoteLine.objects.select_for_update().filter(pk=line.pk).first()
    if current is None:
        raise LineGone()
    return current


def _values(line: QuoteLine) -> dict[str, object]:
    names = (
        "kind",
        "quantity",
        "unit",
        "unit_cost",
        "hours",
        "price",
        "price_fixed",
        "price_reason",
        "quote_id",
    )
    return {name: getattr(line, name) for name in names}


def _settle(line: QuoteLine, quote: Quote) -> None:
    """Own work is counted in hours and costs what an hour costs; an adjustment costs nothing."""
    if line.kind == Kind.LABOUR:
        line.hours = line.quantity
        if line.unit_cost is None:
            line.unit_cost = round_money(hourly_cost(quote.basis.rates).cost, 4)
    else:
        line.hours = Decimal(0)
    if line.kind == Kind.ADJUSTMENT:
        line.unit_cost = Decimal(0)
    if not line.price_fixed:
        line.price_reason = ""
