"""The customer's answer: yes, once, or no with a reason."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from office.models import Person
from quoting.errors import AlreadyAccepted
from quoting.lifecycle import Step, lapse_if_past, locked, move
from quoting.models import Acceptance, Choice, CustomerLink, Quote, QuoteLine, Status
from quoting.totals import Totals, chosen_lines, total_of

NAME_LENGTH = 200


@dataclass(frozen=True)
class Signature:
    """Who said yes, to which extras, and from where."""

    name: str
    options: tuple[int, ...] = ()
    signed_on: date | None = None  # none: today
    address: str | None = None
    user_agent: str = ""


def accept_by_link(*, link: CustomerLink, signature: Signature) -> Quote:
    """The customer accepts on the page that the link opens."""
    return _accept(link.quote, None, signature, link)


def accept_on_paper(*, quote: Quote, by: Person, signature: Signature) -> Quote:
    """The office records a signature on paper."""
    return _accept(quote, by, signature, None)


def decline(*, quote: Quote, by: Person | None, reason: str, address: str | None = None) -> Quote:
    """``by`` is none when the customer declines on the page."""
    quote = lapse_if_past(quote)
    detail = {"address": address} if address else {}
    return move(quote, Status.DECLINED, by, Step(reason.strip()[:500], detail))


def total_with(quote: Quote, options: Sequence[int]) -> Totals:
    """Total of an offer with these extras. Raises ValidationError for one that it does not have."""
    lines = list(quote.lines.all())
    _check_options(lines, options)
    return total_of(chosen_lines(lines, options), quote.tax_by)


def _accept(quote: Quote, by: Person | None, signature: Signature, link: CustomerLink | None) -> Quote:
    quote = lapse_if_past(quote)  # outside the transaction below, which a refusal rolls back
    with transaction.atomic():
        stored = locked(quote)
        if stored.status == Status.ACCEPTED:
            raise AlreadyAccepted()
        if stored.status == Status.ISSUED:
            _keep(stored, by, signature, link)
        detail = {"name": signature.name, "options": list(signature.options)}
        return move(stored, Status.ACCEPTED, by, Step(detail=detail))


def _keep(stored: Quote, by: Person | None, signature: Signature, link: CustomerLink | None) -> None:
    totals = total_with(stored, signature.options)
    acceptance = Acceptance(
        quote=stored,
        by=Acceptance.By.PAPER if link is None else Acceptance.By.LINK,
        name=signature.name.strip(),
        at=timezone.now(),
        signed_on=signature.signed_on or timezone.localdate(),
        address=signature.address,
        user_agent=signature.user_agent[:400],
        pdf_sha256=stored.seal.pdf_sha256,
        options=list(signature.options),
        net=totals.net,
        tax=totals.tax,
        total=totals.total,
        link=link,
        recorded_by=by,
    )
    _check_day(stored, acceptance.signed_on)
    acceptance.full_clean()
    acceptance.save()


def _check_day(stored: Quote, day: date) -> None:
    issued_on = timezone.localdate(stored.issued_at) if stored.issued_at else date.min
    if not issued_on <= day <= timezone.localdate():
        raise ValidationError(
            {"signed_on": f"The day lies between {issued_on:%d %B %Y}, when the offer went out, and today."}
        )


def _check_options(lines: Sequence[QuoteLine], options: Sequence[int]) -> None:
    by_id = {line.pk: line for line in lines if line.choice != Choice.INCLUDED}
    if any(option not in by_id for option in options) or len(set(options)) < len(options):
        raise ValidationError({"options": "One of the extras is not part of this offer. Choose again."})
    replaced = [by_id[o].alternative_to_id for o in options if by_id[o].choice == Choice.ALTERNATE]
    if len(set(replaced)) < len(replaced):
        raise ValidationError({"options": "Two of the alternatives stand in for the same thing. Choose one."})
