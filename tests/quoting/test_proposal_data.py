"""From an offer to what its PDF is told: signs, taxes, conditions, paper."""

from copy import deepcopy

import pytest

from quoting.proposal_data import proposal_data
from quoting.reports import subject_of
from quoting.services import issue_quote
from tests.quoting.factories import make_draft


@pytest.fixture
def issued(clerk):
    return issue_quote(quote=make_draft(clerk), by=clerk)


def data_of(quote, **changes):
    offer = {**deepcopy(quote.seal.sealed["offer"]), **changes}
    return proposal_data(offer, subject_of(quote))


@pytest.mark.django_db
def test_every_offer_says_when_work_starts_what_is_left_behind_and_the_right_to_cancel(issued):
    said = {row.title: row.text for row in data_of(issued).conditions}
    assert "buried services have been located and marked" in said["Start of work"]
    assert "compact the trenches" in said["Lawn and paving"]
    assert "the law of your place" in said["Right to cancel"]
    assert said["Warranty"]


@pytest.mark.django_db
def test_the_counts_that_a_customer_asks_for_are_figures(issued):
    """Site S1: 15 heads, 2 valves, 2 zones (trade practice, by hand)."""
    assert [(f.value, f.label) for f in data_of(issued).figures[1:]] == [
        ("15", "heads"),
        ("2", "valves"),
        ("2", "zones"),
    ]


@pytest.mark.django_db
def test_an_extra_is_written_with_its_sign(issued):
    rows = [
        {"text": "More", "total": "185.00", "instead_of": ""},
        {"text": "Less", "total": "-75.00", "instead_of": "A"},
    ]
    more, less = data_of(issued, options=rows).options
    assert more.amount.startswith("+")
    assert "75" in less.amount
    assert less.amount.startswith(("-", "−", "‑"))
    assert less.detail == "instead of: A"


@pytest.mark.django_db
def test_without_tax_there_is_no_subtotal_and_no_word_of_tax(issued):
    data = data_of(issued, tax="0.00", taxes=[], net="100.00", total="100.00")
    assert (data.subtotal, data.taxes, data.total_note) == ("", (), "")
    taxed = data_of(issued)
    assert bool(taxed.subtotal) == bool(taxed.taxes)


@pytest.mark.django_db
def test_the_paper_is_the_companys(issued):
    company = issued.seal.sealed["offer"]["company"]
    assert data_of(issued, company={**company, "paper": "letter"}).page_size == "Letter"
    assert data_of(issued, company={**company, "paper": "a4"}).page_size == "A4"
