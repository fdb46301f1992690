"""The life of a quote: which moves there are, and the one function that makes them."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from django.db import transaction
from django.utils import timezone

from office import audit
from office.models import Person
from quoting.errors import AlreadyAccepted, MoveRefused
from quoting.models import Quote, QuoteEvent, Status

TRANSITIONS: dict[Status, frozenset[Status]] = {
    Status.DRAFT: frozenset({Status.ISSUED}),
    Status.ISSUED: frozenset({Status.ACCEPTED, Status.DECLINED, Status.LAPSED, Status.SUPERSEDED}),
    Status.DECLINED: frozenset({Status.SUPERSEDED}),
    Status.LAPSED: frozenset({Status.SUPERSEDED}),
    Status.ACCEPTED: frozenset(),
    Status.SUPERSEDED: frozenset(),
}

AFTER_ACCEPT: list[Callable[[Quote, Person | None], Any]] = []
"""Called as ``hook(quote, by)`` inside the transaction that accepts; ``by`` is none for a customer."""


@dataclass(frozen=True)
class Step:
    """What is kept of one move beside the new status."""

    reason: str = ""
    detail: dict[str, Any] = field(default_factory=dict)
    fields: dict[str, Any] = field(default_factory=dict)  # of the quote, saved with the status


def locked(quote: Quote) -> Quote:
    """The stored row, locked until the transaction ends. Raises MoveRefused where it is gone."""
    stored = Quote.objects.select_for_update().filter(pk=quote.pk).first()
    if stored is None:
        raise MoveRefused("This draft has been discarded in the meantime.")
    return stored


@transaction.atomic
def move(quote: Quote, to: Status, by: Person | None, step: Step | None = None) -> Quote:
    """Bring the quote to ``to``, or raise MoveRefused and change nothing.

    ``by`` is none when the customer, or the calendar, moves it.
    """
    step = step or Step()
    stored = locked(quote)
    _refuse_forbidden(stored, to)
    _refuse_unreasoned(stored, to, step)
    before = stored.status
    for name, value in {**step.fields, **_dates_of(to)}.items():
        setattr(stored, name, value)
    stored.status = to
    stored.version += 1
    stored.save()
    QuoteEvent.objects.create(
        quote=stored, by=by, from_status=before, to_status=to, reason=step.reason, detail=step.detail
    )
    audit.record(
        by=by, verb=f"quote.{to.value}", subject=stored, detail={"reason": step.reason, **step.detail}
    )
    if to == Status.ACCEPTED:
        for hook in AFTER_ACCEPT:
            hook(stored, by)
    return stored


def _refuse_forbidden(stored: Quote, to: Status) -> None:
    before = Status(stored.status)
    if before == Status.ACCEPTED and to == Status.ACCEPTED:
        raise AlreadyAccepted()
    if to not in TRANSITIONS[before]:
        raise MoveRefused(_why_not(before, to))
    if to == Status.ACCEPTED and is_past(stored):
        raise MoveRefused(
            f"This offer was valid until {stored.valid_until:%d %B %Y}. "
            "Make a new revision with today's prices."
        )


def _refuse_unreasoned(stored: Quote, to: Status, step: Step) -> None:
    if to == Status.DECLINED and not step.reason.strip():
        raise MoveRefused("Say in a few words why the offer was declined.")
    if to == Status.LAPSED and not is_past(stored):
        raise MoveRefused(f"This offer is valid until {stored.valid_until:%d %B %Y}.")


def _why_not(before: Status, to: Status) -> str:
    if before == Status.DRAFT:
        return "This quote is still a draft. Issue it first."
    if before == Status.ACCEPTED:
        return "This offer has been accepted. Agree a change with the customer as a new quote."
    if before == Status.SUPERSEDED:
        return "A newer revision has replaced this offer."
    if before == Status.LAPSED:
        return "This offer has lapsed. Make a new revision with today's prices."
    if before == Status.DECLINED:
        return "This offer was declined. Make a new revision to offer again."
    return f"An offer that is out cannot become {to.label.lower()}."


def _dates_of(to: Status) -> dict[str, Any]:
    return {"decided_at": timezone.now()} if to in (Status.ACCEPTED, Status.DECLINED) else {}


def is_past(quote: Quote) -> bool:
    """Whether its last day of validity is over, in the company's time zone."""
    return quote.valid_until is not None and quote.valid_until < timezone.localdate()


def lapse_if_past(quote: Quote) -> Quote:
    """The quote as it stands; an issued one whose time is over lapses first."""
    if quote.status != Status.ISSUED or not is_past(quote):
        return quote
    try:
        return move(quote, Status.LAPSED, None, Step(reason="validity over"))
    except MoveRefused:  # somebody else was first
        return Quote.objects.get(pk=quote.pk)


def lapse_all_past() -> int:
    """Lapse every issued quote whose time is over; how many."""
    past = Quote.objects.filter(status=Status.ISSUED, valid_until__lt=timezone.localdate())
    return sum(lapse_if_past(quote).status == Status.LAPSED for quote in past)
