"""What a customer has to find in a proposal."""

import json
import re

import pytest
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfbase.pdfmetrics import stringWidth

from design.document import Plan
from quoting.proposal import Company, Condition, PriceLine, ProposalData, render_proposal
from quoting.proposal.blocks import amount, words
from quoting.proposal.styles import look_of
from tests.proposal.pdf_reading import pages_of, reader_of, words_of
from tests.proposal.sample_proposal import SAMPLE, sample


@pytest.fixture(scope="module")
def pdf() -> bytes:
    return render_proposal(SAMPLE)


@pytest.fixture(scope="module")
def text(pdf) -> str:
    return words_of(pdf)


@pytest.mark.parametrize(
    "wanted",
    [
        "Alderbrook Garden Water", "Contractor licence W-20417", "Public liability insured",
        "0555 010 199",
        "Proposal for Maren Oduya", "18 Fern Rise", "Q-2031-0042, revision 2", "3 March 2031", "2 April 2031",
        "without a hose on the grass", "We lay buried pipe to both lawns", "West lawn", "162 m²", "drip line",
        "30 L/min", "24 L/min", "The design relies on these readings", "The strip behind the greenhouse",
        "Trenches, crossing and turf", "$2,410.00", "Subtotal", "Sales tax 8 %", "$470.40",
        "Rain sensor", "we suggest this", "+ $185.00", "Deposit, 30 %", "$1,905.12", "Digging in rock",
        "The supply keeps the pressure", "Two years on our work", "Right to cancel", "Name in full",
        "Signature", "$6,350.40", "https://quotes.alderbrook.example/p/7hQ2xk",
    ],
)  # fmt: skip
def test_it_shows(text, wanted):
    assert wanted in text


@pytest.mark.parametrize(
    "caution",
    [
        "located and marked before any digging", "we dig by hand", "fitted and tested by a licensed plumber",
        "as the local code asks", "licensed electrician", "guarded while they are open", "a design aid",
        "measured conditions", "local codes and licensed practice always come first",
    ],
)  # fmt: skip
def test_cautions_are_printed_whatever_the_data(caution):
    assert caution in words_of(render_proposal(sample(cautions=(), conditions=(), plan=None, report=None)))


def test_the_cover_has_the_promise_the_drawing_and_the_total(pdf):
    cover = pages_of(pdf)[0]
    assert "without a" in cover
    assert "$6,350.40" in cover
    for word in ("West lawn", "House", "Supply", "10 m"):
        assert word in cover


def test_the_plan_page_has_the_whole_drawing_and_its_caution(pdf):
    page = pages_of(pdf)[1]
    assert "Your plan" in page
    for word in (
        "Trench dug by hand",
        "G: buried gas",
        "Zone West lawn",
        "Mark to measure from",
        "West lawn",
        "N",
        "10 m",
    ):
        assert word in page
    for number in ("1", "2", "3"):
        assert re.search(rf"(?<!\S){number}(?!\S)", page)  # a zone's badge
    assert "do not replace locating" in page


def test_the_plan_is_for_reading_and_not_for_building(pdf):
    """Ids, sizes and lengths of pipe say nothing to a customer and all to another bidder."""
    pages = pages_of(pdf)
    for page in pages[:2]:
        assert not re.search(r"\b[HVD]\d\b", page)
        assert "25 ·" not in page
        assert "deep" not in page


def test_a_wide_site_lies_down_and_a_tall_one_stands_up():
    document = json.loads(SAMPLE.plan.model_dump_json(by_alias=True))
    tall = Plan.model_validate(_turned(document))
    wide_page = reader_of(render_proposal(SAMPLE)).pages[1].mediabox
    tall_page = reader_of(render_proposal(sample(plan=tall, report=None))).pages[1].mediabox
    assert wide_page.width > wide_page.height
    assert tall_page.width < tall_page.height


def _turned(value):
    """The plan with x and y exchanged."""
    if isinstance(value, dict):
        return {key: _turned(part) for key, part in value.items()}
    if isinstance(value, list):
        is_point = len(value) == 2 and all(isinstance(part, int | float) for part in value)
        return value[::-1] if is_point else [_turned(part) for part in value]
    return value


def test_every_page_says_which_of_how_many(pdf):
    pages = pages_of(pdf)
    assert len(pages) == 4
    for number, page in enumerate(pages, start=1):
        assert f"Page {number} of {len(pages)}" in page
        assert "Q-2031-0042" in page


def test_metadata_name_the_proposal_the_company_and_the_customer(pdf):
    reader = reader_of(pdf)
    assert reader.metadata.title == "Proposal Q-2031-0042, revision 2"
    assert reader.metadata.author == "Alderbrook Garden Water"
    assert reader.metadata.subject == "Irrigation for Maren Oduya"
    assert reader.trailer["/Root"]["/Lang"] == "en"


def test_each_part_has_a_bookmark(pdf):
    marks = [mark.title for mark in reader_of(pdf).outline]
    assert marks[0] == "Proposal for Maren Oduya"
    assert {"What we will do", "Price", "Options", "Payment", "Safety first", "How to accept"} <= set(marks)


@pytest.mark.parametrize(("name", "size"), [("A4", A4), ("Letter", LETTER)])
def test_both_page_sizes(name, size):
    pages = reader_of(render_proposal(sample(page_size=name))).pages
    assert len(pages) == 4
    for number, page in enumerate(pages):
        sides = [float(page.mediabox.width), float(page.mediabox.height)]
        wanted = size[::-1] if number == 1 else size  # this plan lies down
        assert sides == pytest.approx(list(wanted), abs=0.01)


def test_the_cover_stays_one_page_for_long_names():
    for size in ("A4", "Letter"):
        pages = pages_of(render_proposal(sample(customer_name="Anna Maria " * 18, page_size=size)))
        assert "$6,350.40" in pages[0]


def test_a_discount_and_no_options():
    data = sample(discount=PriceLine("Off-season discount", "− $200.00"), options=(), stages=())
    text = words_of(render_proposal(data))
    assert "Off-season discount" in text
    assert "− $200.00" in text
    assert "Rain sensor" not in text
    assert "Payment" not in [m.title for m in reader_of(render_proposal(data)).outline]


def test_us_units_reach_the_drawing():
    text = words_of(render_proposal(sample(units="us")))
    assert re.search(r"\b\d+ ft\b", text)  # the scale bar
    assert "US gal/min" in text
    assert "psi" in text
    plan_page = pages_of(render_proposal(sample(units="us")))[1]
    assert not re.search(r"\d m\b|kPa|L/min", plan_page)


def test_payment_and_signature_stand_together_on_the_last_page():
    for changes in (
        {},
        {"page_size": "Letter"},
        {"options": SAMPLE.options * 8},
        {"stages": SAMPLE.stages * 2},
    ):
        pages = pages_of(render_proposal(sample(**changes)))
        for wanted in ("when the main pipe has held its pressure test", "How to accept", "Signature"):
            assert [number for number, page in enumerate(pages) if wanted in page] == [len(pages) - 1]
        assert [page.count("office@alderbrook.example") for page in (pages[0], pages[-1])] == [1, 1]


@pytest.mark.parametrize("price", ["1 234 567,50 €", "1\u00a0234\u202f567,50\u00a0€"])
def test_no_line_end_parts_a_price(price):
    style = look_of(SAMPLE)["grand"]
    longest_word = amount(price, style).minWidth()
    assert longest_word == pytest.approx(stringWidth(price, style.fontName, style.fontSize), rel=0.02)
    assert words("1 234 567,50 €", style).minWidth() < longest_word / 1.5


def test_three_hundred_sections_flow_and_no_price_leaves_its_label():
    lines = tuple(
        PriceLine(f"Section {n:03}", f"${n},{n:03}.07", "Some words on it. " * 6) for n in range(300)
    )
    pages = pages_of(render_proposal(sample(sections=lines)))
    assert len(pages) > 12
    for line in lines:
        holders = [page for page in pages if line.label in page]
        assert len(holders) == 1
        assert line.amount in holders[0]
    last = next(page for page in pages if "Total, tax included" in page)
    assert "Section 299" in last
    assert "$6,350.40" in last


def test_very_long_texts_flow():
    data = sample(
        sections=(PriceLine("Everything", "$1.00", "long words here " * 1200),),
        conditions=(Condition("Terms", "all of them " * 1500),),
        scope=("a sentence that never ends " * 800,),
        not_included=tuple(f"thing {n}" for n in range(200)),
    )
    pages = pages_of(render_proposal(data))
    assert "$1.00" in " ".join(pages)
    assert len(pages) > 10


def test_a_bare_proposal_is_still_a_proposal():
    data = ProposalData(Company("Acre"), "Q-1", 1, "1 May", "31 May", "A", "Water for your garden.", "$1.00")
    text = words_of(render_proposal(data))
    assert "$1.00" in text
    assert "Safety first" in text
    assert "What it will do" not in text
