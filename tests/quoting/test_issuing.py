"""What keeps a draft from going out, and that a crash half-way leaves nothing behind."""

from decimal import Decimal

import pytest

from office.models import AuditEvent
from office.versions import Clash
from quoting import issuing
from quoting.errors import MoveRefused, NotADraft
from quoting.models import NumberCounter, Policy, Quote, QuoteLine, SealedProposal, Status
from quoting.policies import get_policy
from quoting.services import hindrances, issue_quote, new_revision
from tests.quoting.factories import make_draft, make_plan

pytestmark = pytest.mark.django_db


def with_stop(quote):
    finding = {
        "code": "head.pressure.low", "severity": "stop", "where": ["A1"], "measured": 90, "limit": 170,
        "unit": "kPa", "sentence": "The pressure at H1 is 90 kPa; it needs 170.", "source": "a test",
    }  # fmt: skip
    quote.basis.report["findings"].append(finding)
    quote.basis.save()
    return quote


def nothing_happened(quote):
    fresh = Quote.objects.get(pk=quote.pk)
    return (fresh.status, fresh.number, fresh.issued_at) == (Status.DRAFT, None, None) and not (
        SealedProposal.objects.exists() or NumberCounter.objects.exists() or fresh.events.exists()
    )


def test_a_crash_while_the_pdf_is_made_leaves_the_database_as_it_was(draft, clerk, monkeypatch):
    def crash(offer, subject):
        raise OSError("disk full")

    monkeypatch.setattr(issuing, "render_offer", crash)
    audited = AuditEvent.objects.count()
    with pytest.raises(OSError, match="disk full"):
        issue_quote(quote=draft, by=clerk)
    assert nothing_happened(draft)
    assert AuditEvent.objects.count() == audited


def test_a_crash_while_it_is_sealed_leaves_the_database_as_it_was(draft, clerk, monkeypatch):
    monkeypatch.setattr(issuing, "seal", lambda *args: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        issue_quote(quote=draft, by=clerk)
    assert nothing_happened(draft)


def test_after_a_crash_the_next_issue_takes_the_first_number(draft, clerk, monkeypatch):
    with monkeypatch.context() as patch:
        patch.setattr(issuing, "seal", lambda *args: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            issue_quote(quote=draft, by=clerk)
    assert issue_quote(quote=draft, by=clerk).number == 1


def test_a_line_without_a_price_holds_it_back_even_for_the_owner(draft, owner):
    line = draft.lines.first()
    QuoteLine.objects.filter(pk=line.pk).update(unit_cost=None)
    with pytest.raises(MoveRefused, match="no price"):
        issue_quote(quote=draft, by=owner, overrule_reason="never mind")
    assert nothing_happened(draft)


def test_a_price_set_by_hand_is_a_price(draft, clerk):
    line = draft.lines.first()
    QuoteLine.objects.filter(pk=line.pk).update(
        unit_cost=None, price_fixed=True, price_reason="asked by phone"
    )
    assert hindrances(draft) == []


def test_a_stop_of_the_check_holds_it_back(draft, clerk):
    with pytest.raises(MoveRefused, match=r"pressure at H1.*ask the owner"):
        issue_quote(quote=with_stop(draft), by=clerk, overrule_reason="I know better")
    assert nothing_happened(draft)


def test_the_owner_overrules_a_stop_with_a_reason_which_is_sealed(draft, owner):
    quote = with_stop(draft)
    with pytest.raises(MoveRefused, match="say why"):
        issue_quote(quote=quote, by=owner, overrule_reason="  ")
    issued = issue_quote(quote=quote, by=owner, overrule_reason="The customer raises the pressure")
    assert issued.seal.sealed["overruled"] == [
        "The check says stop: The pressure at H1 is 90 kPa; it needs 170."
    ]
    event = issued.events.get(to_status="issued")
    assert event.reason == "The customer raises the pressure"
    assert event.detail["overruled"]


def test_a_draft_without_lines_or_worth_nothing_stays(draft, clerk):
    draft.lines.all().delete()
    assert "no lines" in hindrances(draft)[0].sentence
    Quote.objects.filter(pk=draft.pk).update(total=0)
    with pytest.raises(MoveRefused):
        issue_quote(quote=draft, by=clerk)


def test_what_changed_since_it_was_looked_at_is_not_issued(draft, clerk):
    with pytest.raises(Clash):
        issue_quote(quote=draft, by=clerk, began_from=draft.version - 1)
    assert nothing_happened(draft)


def test_an_issued_quote_is_not_issued_again(issued, clerk):
    with pytest.raises(NotADraft):
        issue_quote(quote=issued, by=clerk)


def test_validity_and_numbering_follow_the_policy(draft, clerk):
    get_policy()
    Policy.objects.update(validity_days=10, numbering="overall")
    issued = issue_quote(quote=draft, by=clerk)
    assert (issued.valid_until - issued.issued_at.date()).days in (9, 10)
    assert (issued.number_year, issued.number, issued.reference) == (0, 1, "00001")


def test_a_revision_uses_no_new_number(issued, clerk):
    issue_quote(quote=new_revision(quote=issued, by=clerk), by=clerk)
    assert NumberCounter.objects.get().last == 1
    assert issue_quote(quote=make_draft(clerk, make_plan()), by=clerk).number == 2


def test_sums_of_what_is_out_are_those_of_its_lines(issued):
    lines = list(issued.lines.all())
    assert issued.net == sum((line.price for line in lines), Decimal(0))
    assert issued.total == issued.net + issued.tax
    offer = issued.seal.sealed["offer"]
    assert Decimal(offer["total"]) == issued.total
    assert sum(Decimal(row["price"]) for row in offer["sections"]) == issued.net
    assert sum(Decimal(row["amount"]) for row in offer["stages"]) == issued.total
