"""Making a draft from a plan, and working it out anew."""

from collections.abc import Iterable

from django.db import transaction
from django.utils import timezone

from design.report import report_to_dict
from office import audit
from office.models import Person
from office.versions import Clash, save_version
from quoting.customer_words import customer_text
from quoting.errors import NotADraft
from quoting.lifecycle import locked
from quoting.line_pricing import is_adjustment, price_lines
from quoting.models import Basis, LineOrigin, Quote, QuoteLine
from quoting.policies import get_policy, production_rates, rates_dict
from quoting.pricing_inputs import CostLine
from quoting.working_out import Rates, WorkedOut, work_out
from sites.models import PlanRevision

# what a person may have changed on a computed line, and keeps when it is worked out anew
_KEPT = ("text", "internal_text", "listed", "choice", "price_fixed", "price_reason")


@transaction.atomic
def draft_quote(*, plan: PlanRevision, by: Person | None) -> Quote:
    """A draft with its lines, worked out from the plan. Raises PlanNotPriceable."""
    rates = rates_now()
    worked = work_out(plan, rates)
    quote = Quote.objects.create(
        site=plan.site, plan=plan, title=plan.name, made_by=by, tax_by=rates.policy.tax_by
    )
    _keep_basis(quote, worked, rates)
    QuoteLine.objects.bulk_create(_lines(quote, worked))
    priced = price_lines(quote)
    audit.record(by=by, verb="quote.drafted", subject=priced, detail={"plan": plan.pk})
    return priced


@transaction.atomic
def rework_quote(
    *, quote: Quote, by: Person | None, plan: PlanRevision | None = None, began_from: int | None = None
) -> Quote:
    """Check, take off and price a draft anew, at today's rates and prices.

    Lines added by hand stay. A computed line that is found again by its key keeps what was
    edited: its words, a price set by hand, a quantity changed by hand.
    """
    stored = draft_locked(quote, began_from)
    rates = rates_now()
    revision = plan or stored.plan
    worked = work_out(revision, rates, machine_access=stored.machine_access)
    stored.plan, stored.tax_by = revision, rates.policy.tax_by
    stored.save(update_fields=["plan", "tax_by"])
    _keep_basis(stored, worked, rates)
    _replace_lines(stored, worked)
    priced = price_lines(stored)
    audit.record(by=by, verb="quote.reworked", subject=priced, detail={"plan": revision.pk})
    return priced


@transaction.atomic
def edit_draft(*, quote: Quote, began_from: int, fields: dict[str, object], by: Person) -> Quote:
    """Title, words to the customer, whether a trencher gets in. Raises Clash."""
    draft_locked(quote, None)
    saved = save_version(quote, began_from=began_from, fields=fields)
    audit.record(by=by, verb="quote.edited", subject=saved, detail={"fields": sorted(fields)})
    return saved


@transaction.atomic
def discard_draft(*, quote: Quote, by: Person) -> None:
    """Delete a draft with its lines. It has used no number of its own."""
    stored = draft_locked(quote, None)
    audit.record(by=by, verb="quote.discarded", subject=stored, detail={"site": stored.site_id})
    stored.delete()


def draft_locked(quote: Quote, began_from: int | None) -> Quote:
    """The stored draft, locked. Raises NotADraft, or Clash if it was saved since."""
    stored = locked(quote)
    if not stored.is_draft:
        raise NotADraft()
    if began_from is not None and stored.version != began_from:
        raise Clash(stored)
    return stored


def rates_now() -> Rates:
    return Rates(get_policy(), production_rates(), timezone.localdate())


def _keep_basis(quote: Quote, worked: WorkedOut, rates: Rates) -> None:
    values = {
        "report": report_to_dict(worked.report),
        "rates": rates_dict(rates.policy, rates.production),
        "notes": list(worked.notes),
        "worked_out_at": timezone.now(),
    }
    quote.basis, _ = Basis.objects.update_or_create(quote=quote, defaults=values)


def _lines(quote: Quote, worked: WorkedOut) -> list[QuoteLine]:
    return [_line(quote, order, line, worked) for order, line in enumerate(_in_order(worked.lines), start=1)]


def _in_order(lines: Iterable[CostLine]) -> list[CostLine]:
    """Bought goods first, then work, as they came."""
    rank = {"material": 0, "labour": 1, "hire": 2, "subcontract": 3, "permit": 4}
    return sorted(lines, key=lambda line: rank.get(line.kind, 9))


def _line(quote: Quote, order: int, line: CostLine, worked: WorkedOut) -> QuoteLine:
    text, listed = customer_text(line, worked.parts.get(line.key))
    return QuoteLine(
        quote=quote,
        order=order * 10,
        key=line.key,
        section=line.section,
        kind=line.kind,
        text=text[:300],
        internal_text="" if text == line.text else line.text[:500],
        listed=listed,
        quantity=line.quantity,
        computed_quantity=line.quantity,
        unit=line.unit,
        unit_cost=line.unit_cost,
        hours=line.hours,
        supplier=worked.suppliers.get(line.key, ""),
        price_from=line.priced_on,
        where=list(line.where),
        how=line.how[:500],
    )


def _replace_lines(quote: Quote, worked: WorkedOut) -> None:
    """Old computed lines go, new ones come, edits stay with their key."""
    old = {line.key: line for line in quote.lines.filter(origin=LineOrigin.COMPUTED)}
    fresh = _lines(quote, worked)
    found = {line.key for line in fresh}
    quote.lines.filter(pk__in=[line.pk for key, line in old.items() if key not in found]).delete()
    for line in fresh:
        before = old.get(line.key)
        if before is not None and not is_adjustment(before):
            line.pk, line.version, line.changed_at = before.pk, before.version + 1, timezone.now()
            _keep_edits(line, before)
    QuoteLine.objects.bulk_create([line for line in fresh if line.pk is None])
    kept = [line for line in fresh if line.pk in {row.pk for row in old.values()}]
    QuoteLine.objects.bulk_update(kept, _stored_fields())


def _keep_edits(line: QuoteLine, before: QuoteLine) -> None:
    for name in _KEPT:
        setattr(line, name, getattr(before, name))
    line.alternative_to_id = before.alternative_to_id
    if before.price_fixed:
        line.price = before.price
    if before.quantity_edited:
        line.quantity, line.hours = before.quantity, before.hours


def _stored_fields() -> list[str]:
    left_out = {"id", "quote"}
    return [field.name for field in QuoteLine._meta.concrete_fields if field.name not in left_out]
