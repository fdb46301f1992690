"""Which moves a quote makes, which it refuses, and what is kept of each."""

from datetime import timedelta

import pytest
from django.utils import timezone

from office.models import AuditEvent
from quoting import lifecycle
from quoting.errors import AlreadyAccepted, MoveRefused
from quoting.lifecycle import TRANSITIONS, Step, lapse_all_past, lapse_if_past, move
from quoting.models import Quote, QuoteEvent, Status
from quoting.services import Signature, accept_on_paper, decline, new_revision
from tests.quoting.factories import make_issued, make_plan

pytestmark = pytest.mark.django_db


def put_back(quote, days):
    """Let the offer have run out so many days ago. The database refuses that for an issued quote."""
    with_time = timezone.now() + timedelta(days=(quote.valid_until - timezone.localdate()).days + days)
    return with_time


def test_every_status_has_its_moves_and_only_known_ones():
    assert set(TRANSITIONS) == set(Status)
    assert TRANSITIONS[Status.DRAFT] == {Status.ISSUED}
    assert TRANSITIONS[Status.ACCEPTED] == frozenset()
    assert TRANSITIONS[Status.SUPERSEDED] == frozenset()


def test_a_move_writes_an_event_and_the_audit_trail(issued, clerk):
    move(issued, Status.DECLINED, clerk, Step("too dear"))
    event = QuoteEvent.objects.filter(quote=issued).last()
    assert (event.from_status, event.to_status, event.reason, event.by) == (
        "issued",
        "declined",
        "too dear",
        clerk,
    )
    assert AuditEvent.objects.filter(
        verb="quote.declined", subject=f"quote:{issued.pk}", person=clerk
    ).exists()


@pytest.mark.parametrize("to", [Status.ACCEPTED, Status.DECLINED, Status.LAPSED, Status.SUPERSEDED])
def test_a_draft_is_issued_before_anything_else(draft, clerk, to):
    with pytest.raises(MoveRefused, match="still a draft"):
        move(draft, to, clerk, Step("because"))
    draft.refresh_from_db()
    assert draft.status == Status.DRAFT
    assert not draft.events.exists()


def test_an_accepted_offer_moves_no_more(accepted, clerk):
    for to in Status:
        with pytest.raises(MoveRefused):
            move(accepted, to, clerk, Step("because"))


def test_declining_needs_a_reason(issued, clerk):
    with pytest.raises(MoveRefused, match="few words"):
        decline(quote=issued, by=clerk, reason="  ")
    issued.refresh_from_db()
    assert issued.status == Status.ISSUED


def test_an_offer_lapses_the_day_after_its_last(issued, time_machine):
    time_machine.move_to(put_back(issued, 0))
    assert lapse_if_past(issued).status == Status.ISSUED
    time_machine.move_to(put_back(issued, 1))
    assert lapse_all_past() == 1
    issued.refresh_from_db()
    assert issued.status == Status.LAPSED
    assert issued.events.last().by is None
    assert lapse_all_past() == 0


def test_an_offer_that_holds_does_not_lapse(issued, clerk):
    with pytest.raises(MoveRefused, match="valid until"):
        move(issued, Status.LAPSED, clerk)


def test_an_offer_that_ran_out_cannot_be_accepted(issued, clerk, time_machine):
    time_machine.move_to(put_back(issued, 1))
    with pytest.raises(MoveRefused, match="lapsed"):
        accept_on_paper(quote=issued, by=clerk, signature=Signature("Ada Example"))
    issued.refresh_from_db()
    assert issued.status == Status.LAPSED
    assert not hasattr(issued, "acceptance")


def test_an_offer_is_accepted_once(accepted, clerk):
    with pytest.raises(AlreadyAccepted):
        accept_on_paper(quote=accepted, by=clerk, signature=Signature("Somebody Else"))
    accepted.refresh_from_db()
    assert accepted.acceptance.name == "Ada Example"


def test_what_hangs_on_acceptance_runs_in_its_transaction(issued, clerk, monkeypatch):
    seen = []

    def hook(quote, by):
        seen.append((quote.status, by, quote.acceptance.name))
        raise RuntimeError("the job could not be made")

    monkeypatch.setattr(lifecycle, "AFTER_ACCEPT", [hook])
    with pytest.raises(RuntimeError):
        accept_on_paper(quote=issued, by=clerk, signature=Signature("Ada Example"))
    assert seen == [("accepted", clerk, "Ada Example")]
    fresh = Quote.objects.get(pk=issued.pk)
    assert fresh.status == Status.ISSUED
    assert not hasattr(fresh, "acceptance")


def test_an_issued_revision_replaces_the_one_before(issued, clerk):
    from quoting.services import issue_quote

    draft = new_revision(quote=issued, by=clerk)
    issued.refresh_from_db()
    assert issued.status == Status.ISSUED  # until the new one is out
    assert (draft.number, draft.revision, draft.status) == (issued.number, 2, Status.DRAFT)
    out = issue_quote(quote=draft, by=clerk)
    issued.refresh_from_db()
    assert issued.status == Status.SUPERSEDED
    assert out.reference == f"{issued.reference}/2"


def test_a_revision_is_not_issued_over_an_acceptance(issued, clerk):
    from quoting.services import issue_quote

    draft = new_revision(quote=issued, by=clerk)
    accept_on_paper(quote=issued, by=clerk, signature=Signature("Ada Example"))
    with pytest.raises(MoveRefused, match="accepted"):
        issue_quote(quote=draft, by=clerk)
    draft.refresh_from_db()
    assert draft.status == Status.DRAFT


def test_there_is_one_draft_of_the_next_revision(issued, clerk):
    new_revision(quote=issued, by=clerk)
    with pytest.raises(MoveRefused, match="already"):
        new_revision(quote=issued, by=clerk)


@pytest.mark.parametrize("state", ["draft", "accepted"])
def test_what_is_no_offer_any_more_has_no_revision(request, clerk, state):
    with pytest.raises(MoveRefused):
        new_revision(quote=request.getfixturevalue(state), by=clerk)


def test_numbers_of_different_customers_follow_each_other(clerk):
    first, second = make_issued(clerk), make_issued(clerk, make_plan())
    assert second.number == first.number + 1
    assert first.number_year == timezone.localdate().year
