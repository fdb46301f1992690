"""Issuing: a draft gets its number, is sealed, and goes out. All of it happens, or nothing."""

from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from django.db import transaction
from django.utils import timezone

from office.company import get_company
from office.models import Person
from office.versions import Clash
from quoting.errors import MoveRefused, NotADraft
from quoting.lifecycle import Step, locked, move
from quoting.models import Quote, QuoteLine, Status
from quoting.models.policy import Numbering
from quoting.numbering import take_number
from quoting.offer import OfferSource, build_offer
from quoting.policies import get_policy
from quoting.proposal_data import render_offer
from quoting.reports import subject_of
from quoting.sealed_content import sealed_content
from quoting.sealing import seal


@dataclass(frozen=True)
class Hindrance:
    """Why a draft cannot go out yet; some the owner may overrule with a reason."""

    sentence: str
    may_be_overruled: bool = False


def hindrances(quote: Quote) -> list[Hindrance]:
    """What keeps this draft from going out, in plain sentences."""
    lines = list(quote.lines.all())
    found = [
        Hindrance(f"“{line.text}” has no price. Add one to the parts book, or set it by hand.")
        for line in lines
        if line.lacks_price
    ]
    if not lines:
        found.append(Hindrance("There are no lines yet. Work the quote out from its plan, or add lines."))
    elif quote.total is None or quote.total <= 0:
        found.append(Hindrance("The total is not above zero. Look at the prices of the lines."))
    stops = [f["sentence"] for f in quote.basis.report["findings"] if f["severity"] == "stop"]
    found += [Hindrance(f"The check says stop: {sentence}", may_be_overruled=True) for sentence in stops]
    return found


@transaction.atomic
def issue_quote(
    *, quote: Quote, by: Person, began_from: int | None = None, overrule_reason: str = ""
) -> Quote:
    """Number, seal and issue. Raises MoveRefused or Clash; then no number is used.

    ``overrule_reason`` lets the owner issue in spite of a stop of the check.
    """
    stored = locked(quote)
    if not stored.is_draft:
        raise NotADraft()
    if began_from is not None and stored.version != began_from:
        raise Clash(stored)
    overruled = _overrule(hindrances(stored), by, overrule_reason.strip())
    _give_number(stored)
    content, pdf = _make_content(stored, by, overruled)
    fields = {name: getattr(stored, name) for name in ("number", "number_year", "issued_at", "valid_until")}
    if stored.replaces is not None:
        move(stored.replaces, Status.SUPERSEDED, by, Step(reason=f"replaced by {stored.reference}"))
    issued = move(stored, Status.ISSUED, by, Step(overrule_reason.strip(), overruled, fields))
    seal(issued, content, pdf)
    return issued


def _overrule(found: list[Hindrance], by: Person, reason: str) -> dict[str, Any]:
    hard = [h.sentence for h in found if not h.may_be_overruled]
    if hard:
        raise MoveRefused(" ".join(hard))
    soft = [h.sentence for h in found]
    if soft and not by.is_owner:
        raise MoveRefused(" ".join(soft) + " Change the plan, or ask the owner.")
    if soft and not reason:
        raise MoveRefused(" ".join(soft) + " Change the plan, or say why it may go out all the same.")
    return {"overruled": soft} if soft else {}


def _give_number(stored: Quote) -> None:
    policy, today = get_policy(), timezone.localdate()
    stored.issued_at = timezone.now()
    stored.valid_until = today + timedelta(days=policy.validity_days)
    if stored.number is None:
        stored.number_year = today.year if policy.numbering == Numbering.YEARLY else 0
        stored.number = take_number(stored.number_year)


def _make_content(stored: Quote, by: Person, overruled: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    source = offer_source(stored)
    today = timezone.localdate()
    offer = build_offer(source, issued_on=today, valid_until=stored.valid_until or today)
    pdf = render_offer(offer, source.subject)
    content = sealed_content(source, offer)
    return {**content, "issued_by": by.get_full_name(), **overruled}, pdf


def offer_source(quote: Quote) -> OfferSource:
    lines: tuple[QuoteLine, ...] = tuple(quote.lines.all())
    return OfferSource(quote, lines, quote.basis.rates, get_company(), subject_of(quote))
