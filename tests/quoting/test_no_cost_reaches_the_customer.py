"""Every internal figure and word of a quote is searched for in all that a customer can get."""

import io
import re
import zlib
from base64 import a85decode
from decimal import Decimal

import pypdf
import pytest
from django.test import Client
from django.urls import reverse

from quoting.cost_side import cost_side
from quoting.models import Policy
from quoting.policies import get_policy
from quoting.services import draft_quote, edit_line, issue_quote, make_link, rework_quote
from tests.quoting.factories import _without_stops, load_price_book, make_plan

pytestmark = pytest.mark.django_db
SECRET_NOTE = "paid the supplier's cousin"


@pytest.fixture
def quote(clerk):
    """Rates that make numbers which no drawing or address would hold by chance."""
    load_price_book()
    get_policy()
    Policy.objects.update(
        wage_per_hour=Decimal("33.37"), burden=Decimal("1.317"), overhead_per_hour=Decimal("29.83"),
        material_percent=Decimal("21.7"), labour_percent=Decimal("18.3"), contingency_percent=Decimal("6.9"),
        plumber_allowance=Decimal("647.31"), subcontract_percent=Decimal("13.9"),
    )  # fmt: skip
    draft = draft_quote(plan=make_plan(), by=clerk)
    _without_stops(draft)
    line = draft.lines.first()
    edit_line(line=line, began_from=line.version, by=clerk, fields={"internal_text": SECRET_NOTE})
    draft.refresh_from_db()
    return issue_quote(quote=draft, by=clerk)


def internal_numbers(quote):
    """Costs, rates, hours and single prices: with two decimals and of at least three digits."""
    lines = list(quote.lines.all())
    side, rates = cost_side(lines), quote.basis.rates
    amounts = {side.whole.cost, side.direct, side.overhead, side.contingency, side.hours}
    for line in lines:
        amounts |= {line.cost, line.overhead, line.contingency, line.full_cost, line.hours, line.price}
        amounts.add(line.unit_cost or Decimal(0))
    amounts |= {row.cost for row in side.rows}
    names = ("wage_per_hour", "overhead_per_hour", "burden", "material_percent", "labour_percent",
             "contingency_percent", "plumber_allowance")  # fmt: skip
    amounts |= {Decimal(rates[name]) for name in names}
    return {amount for amount in amounts if amount >= 10 and amount % 1}


def visible_amounts(quote):
    """What the customer is meant to read."""
    offer = quote.seal.sealed["offer"]
    rows = [offer["net"], offer["tax"], offer["total"], *(r["price"] for r in offer["sections"])]
    rows += [r["amount"] for r in offer["stages"]] + [r["base"] for r in offer["taxes"]]
    return {Decimal(row) for row in rows}


def written(amount):
    """How an amount might be written."""
    plain = f"{amount.normalize():f}"
    return {plain, f"{amount:.2f}", f"{amount:,.2f}"}


def found_in(text, quote):
    bare = re.sub(r"<svg.*?</svg>", "", text, flags=re.DOTALL)
    hits = set()
    for amount in internal_numbers(quote) - visible_amounts(quote):
        for form in written(amount):
            if re.search(rf"(?<![\d.,]){re.escape(form)}(?![\d])", bare):
                hits.add(form)
    return hits


def pdf_texts(pdf):
    """Text of the pages, metadata, and every stream unpacked."""
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    texts = [page.extract_text() for page in reader.pages]
    texts += [str(reader.metadata), str(reader.xmp_metadata), str(reader.attachments)]
    return texts


def pdf_streams(pdf):
    """Raw streams, unpacked where they are packed."""
    for match in re.finditer(rb"stream\r?\n(.*?)endstream", pdf, re.DOTALL):
        raw = match[1]
        if raw.rstrip().endswith(b"~>"):
            raw = a85decode(raw.strip().removeprefix(b"<~")[:-2])
        try:
            yield zlib.decompress(raw)
        except zlib.error:
            yield raw


def page_and_pdf(quote, clerk):
    token = make_link(quote=quote, by=clerk).token
    visitor = Client()
    page = visitor.get(reverse("quoting:offer", args=[token])).content.decode()
    total = visitor.get(reverse("quoting:offer-total", args=[token])).content.decode()
    pdf = visitor.get(reverse("quoting:offer-pdf", args=[token])).content
    return page + total, pdf


def test_the_search_finds_what_it_looks_for(quote):
    """The test's own check: a page that held a cost would be caught."""
    side = cost_side(list(quote.lines.all()))
    assert found_in(f"<td>{side.whole.cost:,.2f}</td>", quote)
    assert len(internal_numbers(quote)) > 50


def test_no_internal_figure_is_on_the_page_or_in_the_pdf(quote, clerk):
    page, pdf = page_and_pdf(quote, clerk)
    assert found_in(page, quote) == set()
    for text in pdf_texts(pdf):
        assert found_in(text, quote) == set()


def test_no_internal_word_is_on_the_page_or_in_the_pdf(quote, clerk):
    page, pdf = page_and_pdf(quote, clerk)
    suppliers = {line.supplier for line in quote.lines.all() if line.supplier}
    assert suppliers
    words = {SECRET_NOTE, "margin", "markup", "overhead", "contingency", "wage", "supplier_", *suppliers}
    streams = [data.decode("latin-1") for data in pdf_streams(pdf)]
    assert len(streams) > 4
    for text in [page, *pdf_texts(pdf), *streams, pdf.decode("latin-1")]:
        for word in words:
            assert word.lower() not in text.lower(), word


def test_the_pdf_carries_no_attachment_and_no_login_in_its_metadata(quote, clerk):
    _, pdf = page_and_pdf(quote, clerk)
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    assert not reader.attachments
    metadata = str(reader.metadata)
    assert clerk.email not in metadata
    assert "/work/" not in metadata
    assert "/home/" not in metadata


def test_the_offer_that_is_sealed_holds_no_internal_figure(quote):
    import json

    assert found_in(json.dumps(quote.seal.sealed["offer"]), quote) == set()


def test_a_preview_of_a_draft_holds_none_either(clerk, clerk_client):
    load_price_book()
    draft = draft_quote(plan=make_plan(), by=clerk)
    rework_quote(quote=draft, by=clerk)
    pdf = clerk_client.get(reverse("quoting:pdf", args=[draft.pk])).content
    suppliers = {line.supplier for line in draft.lines.all() if line.supplier}
    for text in pdf_texts(pdf):
        assert not [name for name in suppliers if name in text]
