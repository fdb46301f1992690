"""Text that tries to be more than text, and pictures that are none."""

import pytest

from quoting.proposal import AreaLine, Company, PriceLine, render_proposal
from tests.proposal.pdf_reading import pages_of, raw_of, reader_of, words_of
from tests.proposal.sample_proposal import sample

HOSTILE = (
    '<b>bold</b> & <font color="red">red</font> <img src="file:///etc/passwd"/> <a href="javascript:x">y</a>'
)


def test_markup_in_any_field_is_shown_as_typed():
    data = sample(
        company=Company(HOSTILE, address=(HOSTILE,), phone=HOSTILE),
        customer_name=HOSTILE,
        promise=HOSTILE,
        scope=(HOSTILE,),
        sections=(PriceLine(HOSTILE, "$1.00", HOSTILE),),
        areas=(AreaLine(HOSTILE, "1", HOSTILE),),
        not_included=(HOSTILE,),
        cautions=(HOSTILE,),
        acceptance_text=HOSTILE,
        quote_number=HOSTILE,
    )
    pdf = render_proposal(data)
    text = words_of(pdf)
    assert text.count("<b>bold</b> & <font") > 8
    assert reader_of(pdf).metadata.author == HOSTILE
    assert b"/JavaScript" not in raw_of(pdf)
    assert b"root:" not in raw_of(pdf)


@pytest.mark.parametrize("word", ["x" * 2000, "W" * 200, "ß" * 200, "&lt;" * 60, "-" * 400])
def test_words_that_are_too_long_are_broken_and_not_lost(word):
    data = sample(
        customer_name=word[:200],
        promise=word,
        scope=(word,),
        sections=(PriceLine(word[:200], "$1.00", word),),
        areas=(AreaLine(word[:200], "162 m²", word[:200]),),
        site_name=word[:200],
        water_note=word[:200],
    )
    pdf = render_proposal(data)
    text = "".join("".join(pages_of(pdf)).split())
    assert text.count(word[:1]) >= 3 * word[:200].count(word[:1])


def test_a_long_accept_link_keeps_every_character():
    link = "https://quotes.alderbrook.example/p/" + "aB3-_" * 30
    text = "".join(words_of(render_proposal(sample(accept_link=link))).split())
    assert link in text


@pytest.mark.parametrize(
    "link", ["javascript:alert(1)", "file:///etc/passwd", "https://[bad", "quotes.example/x"]
)
def test_only_web_addresses_become_links(link):
    pdf = render_proposal(sample(accept_link=link))
    assert all("/Annots" not in page for page in reader_of(pdf).pages)


@pytest.mark.parametrize("text", ["", " ", "\n\n", "\x00\x01", "\u200b", "\u202eabc", "a\u2028b", "\ud800"])
def test_empty_and_invisible_text_does_no_harm(text):
    data = sample(
        customer_name=text, promise=text, scope=(text,), customer_address=(text,), quote_number=text
    )
    assert "Safety first" in words_of(render_proposal(data))


@pytest.mark.parametrize("logo", [b"", b"not a picture", b"\x89PNG\r\n\x1a\n" + b"\0" * 50, b"<svg/>"])
def test_a_logo_that_is_no_picture_is_left_out(logo):
    pdf = render_proposal(sample(company=Company("Acre", logo=logo)))
    assert len(reader_of(pdf).pages[0].images) == 0


@pytest.mark.parametrize("colour", ["red", "#12", "", "#GGGGGG", "url(x)"])
def test_a_colour_that_is_none_becomes_ours(colour):
    assert render_proposal(sample(company=Company("A", accent=colour))) == render_proposal(
        sample(company=Company("A"))
    )


def test_headings_stay_readable_in_a_pale_company_colour():
    from reportlab.lib.colors import Color

    from quoting.proposal.colour import accent_colour, contrast, readable_on_white

    for pale in ("#ffee00", "#ffffff", "#8fd3ff", "#1f5a4a"):
        # WCAG 2.2, success criterion 1.4.3: 4.5 to 1.
        assert contrast(readable_on_white(accent_colour(pale)), Color(1, 1, 1)) >= 4.5
