"""A new revision of an offer that is out, and what differs from the one before."""

from decimal import Decimal

from django.db import IntegrityError, transaction

from office import audit
from office.company import get_company
from office.models import Person
from quoting.errors import MoveRefused
from quoting.lifecycle import lapse_if_past, locked
from quoting.line_pricing import price_lines
from quoting.models import Basis, Quote, QuoteLine, Status
from quoting.money import ZERO
from quoting.money_words import money_words

CENT = Decimal("0.01")
REVISABLE = (Status.ISSUED, Status.DECLINED, Status.LAPSED)


def new_revision(*, quote: Quote, by: Person) -> Quote:
    """A draft with the same number and the next revision, which replaces ``quote`` when it is issued."""
    lapse_if_past(quote)
    try:
        return _new_revision(quote, by)
    except IntegrityError:
        raise MoveRefused("There is a draft of the next revision already. Go on with that one.") from None


@transaction.atomic
def _new_revision(quote: Quote, by: Person) -> Quote:
    before = locked(quote)
    if before.status not in REVISABLE:
        raise MoveRefused(_why_not(Status(before.status)))
    draft = Quote.objects.create(
        site=before.site,
        plan=before.plan,
        title=before.title,
        message=before.message,
        machine_access=before.machine_access,
        tax_by=before.tax_by,
        number=before.number,
        number_year=before.number_year,
        revision=before.revision + 1,
        replaces=before,
        made_by=by,
    )
    old = before.basis
    draft.basis = Basis.objects.create(
        quote=draft, report=old.report, rates=old.rates, notes=old.notes, worked_out_at=old.worked_out_at
    )
    _copy_lines(before, draft)
    priced = price_lines(draft)
    audit.record(by=by, verb="quote.revised", subject=priced, detail={"from": before.pk})
    return priced


def _copy_lines(before: Quote, draft: Quote) -> None:
    new_of: dict[int, QuoteLine] = {}
    stands_in: list[tuple[QuoteLine, int]] = []
    for line in before.lines.all():
        old_pk, instead_of = line.pk, line.alternative_to_id
        line.pk, line.quote, line.version, line.alternative_to = None, draft, 1, None
        line._state.adding = True
        line.save()
        new_of[old_pk] = line
        if instead_of:
            stands_in.append((line, instead_of))
    for line, instead_of in stands_in:
        line.alternative_to = new_of.get(instead_of)
        line.save(update_fields=["alternative_to"])


def _why_not(status: Status) -> str:
    if status == Status.DRAFT:
        return "This is a draft: change it as it stands."
    if status == Status.ACCEPTED:
        return "This offer has been accepted. Agree a change with the customer as a new quote."
    return "A newer revision has replaced this offer. Revise that one."


def differences(old: Quote, new: Quote) -> list[str]:
    """What changed from one revision to the next, in sentences."""
    before = {_identity(line): line for line in old.lines.all()}
    after = {_identity(line): line for line in new.lines.all()}
    found = [f"New: {_named(line)}." for key, line in after.items() if key not in before]
    found += [f"Gone: {_named(line)}." for key, line in before.items() if key not in after]
    for key in after:
        if key in before:
            found += _line_differences(before[key], after[key])
    if old.plan_id != new.plan_id:
        found.insert(0, f"Drawn anew: plan {old.plan.number} became plan {new.plan.number}.")
    change = (new.total or ZERO) - (old.total or ZERO)
    if change:
        direction = "more" if change > 0 else "less"
        totals = f"{_money(old.total or ZERO)} became {_money(new.total or ZERO)}"
        found.append(f"The total is {_money(abs(change))} {direction}: {totals}.")
    return found


def _named(line: QuoteLine) -> str:
    return f"{line.office_text}, {_money(line.price)}"


def _money(amount: Decimal) -> str:
    company = get_company()
    return money_words(amount, company.currency, company.locale)


def _identity(line: QuoteLine) -> str:
    return line.key or f"{line.kind}/{line.text}"


def _line_differences(old: QuoteLine, new: QuoteLine) -> list[str]:
    words = []
    if old.text != new.text:
        words.append(f"was called “{old.text}”")
    if old.quantity != new.quantity:
        words.append(f"quantity {old.quantity.normalize():f} became {new.quantity.normalize():f} {new.unit}")
    if old.choice != new.choice:
        words.append(f"{old.get_choice_display().lower()} became {new.get_choice_display().lower()}")
    # a lone cent comes from sharing out the rounding of the whole; the total tells it
    if abs(new.price - old.price) > (ZERO if words else CENT):
        words.append(f"price {_money(old.price)} became {_money(new.price)}")
    return [f"{new.office_text}: {', '.join(words)}."] if words else []
