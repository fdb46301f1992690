"""Numbers without a gap when many people issue at the same moment."""

import threading

import pytest
from django.db import connection

from office.models import Person
from quoting import issuing
from quoting.errors import QuoteError
from quoting.models import NumberCounter, Quote, Status
from quoting.services import draft_quote, issue_quote
from tests.quoting.factories import load_price_book, make_draft, make_plan

pytestmark = pytest.mark.django_db(transaction=True)
AT_ONCE = 24


@pytest.fixture
def quick_pdf(monkeypatch):
    """What a PDF looks like is no matter here; that it takes long is, for the lock is held."""
    monkeypatch.setattr(issuing, "render_offer", lambda offer, subject: offer["reference"].encode())


def together(jobs):
    """Run all jobs at once, each in a thread with a connection of its own; what each raised."""
    barrier, errors = threading.Barrier(len(jobs)), []

    def run(job):
        try:
            barrier.wait(timeout=60)
            job()
        except Exception as error:
            errors.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(job,)) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=120)
    return errors


@pytest.fixture
def clerk():
    return Person.objects.create_user(
        "many@example.test", "correct horse battery", name="Many", role="office"
    )


def test_many_issues_at_once_leave_no_gap_and_no_double(clerk, quick_pdf):
    quotes = [make_draft(clerk, make_plan()) for _ in range(AT_ONCE)]
    errors = together([lambda quote=quote: issue_quote(quote=quote, by=clerk) for quote in quotes])
    assert errors == []
    numbers = sorted(Quote.objects.filter(status=Status.ISSUED).values_list("number", flat=True))
    assert numbers == list(range(1, AT_ONCE + 1))
    assert NumberCounter.objects.get().last == AT_ONCE


def test_failed_issues_among_them_use_no_number(clerk, monkeypatch):
    quotes = [make_draft(clerk, make_plan()) for _ in range(12)]
    broken = {quote.pk for quote in quotes[::3]}

    def render(offer, subject):
        if offer["title"] == "breaks":
            raise RuntimeError("no paper")
        return offer["reference"].encode()

    Quote.objects.filter(pk__in=broken).update(title="breaks")
    monkeypatch.setattr(issuing, "render_offer", render)
    errors = together([lambda quote=quote: issue_quote(quote=quote, by=clerk) for quote in quotes])
    assert [str(error) for error in errors] == ["no paper"] * len(broken)
    numbers = sorted(Quote.objects.filter(status=Status.ISSUED).values_list("number", flat=True))
    assert numbers == list(range(1, 12 - len(broken) + 1))
    assert set(Quote.objects.filter(status=Status.DRAFT).values_list("pk", flat=True)) == broken


def test_one_draft_issued_by_many_is_issued_once(clerk, quick_pdf):
    quote = make_draft(clerk)
    errors = together([lambda: issue_quote(quote=quote, by=clerk) for _ in range(8)])
    assert len(errors) == 7
    assert all(isinstance(error, QuoteError) for error in errors)
    assert Quote.objects.get().number == 1


def test_the_counter_is_first_made_by_many_at_once(clerk, quick_pdf):
    load_price_book()
    plan = make_plan()
    quotes = [draft_quote(plan=plan, by=clerk) for _ in range(6)]
    NumberCounter.objects.all().delete()
    errors = together([lambda quote=quote: issue_quote(quote=quote, by=clerk) for quote in quotes])
    assert errors == []
    assert sorted(Quote.objects.values_list("number", flat=True)) == [1, 2, 3, 4, 5, 6]
