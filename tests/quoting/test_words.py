"""Amounts, days and plain words as customers read them."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from design.document import BucketTest, GaugeTest, Plan, StaticTest
from design.report import report_to_dict
from office.company import get_company
from quoting.money_words import date_words, known_locale, money_words, percent_words
from quoting.reports import report_of, subject_of
from quoting.scope_words import _with_article, join_words, promise, round_length, scope_sentences, water
from quoting.services import issue_quote
from sites.services import check_revision
from tests.quoting.factories import load_price_book, make_draft, make_plan


# Unicode CLDR, number and date patterns of these locales, as Babel ships them
@pytest.mark.parametrize(
    ("locale", "currency", "written"),
    [
        ("en_IE", "EUR", "€1,234.50"),
        ("de_DE", "EUR", "1.234,50 €"),
        ("en_US", "USD", "$1,234.50"),
        ("no such", "EUR", "€1,234.50"),
        ("", "EUR", "€1,234.50"),
    ],
)
def test_money_in_the_companys_language(locale, currency, written):
    assert money_words(Decimal("1234.50"), currency, locale).replace("\xa0", " ") == written


def test_days_and_percents():
    assert date_words(date(2026, 3, 9), "en_GB") == "9 March 2026"
    assert date_words("2026-03-09", "de_DE") == "9. März 2026"
    assert percent_words("7.7", "de_DE") == "7,7 %"
    assert percent_words(Decimal("8.000"), "en_GB") == "8 %"
    assert known_locale("xx_YY") == "en_GB"


def test_lists_and_names_in_a_sentence():
    assert join_words([]) == ""
    assert join_words(["a"]) == "a"
    assert join_words(["a", "b", "c"]) == "a, b and c"
    assert _with_article("Front lawn") == "the front lawn"
    assert _with_article("Ida's bed") == "Ida's bed"
    assert _with_article("Bed North") == "Bed North"


@pytest.mark.django_db
def test_the_scope_is_written_from_the_plan():
    """Site S1: 15 heads in 2 zones on 288 m2, 86 m of pipe in 85 m of trench (trade practice, by hand);
    the plan draws the pipe from the tap to the manifold too."""
    quote = make_draft()
    subject = subject_of(quote)
    assert promise(subject).startswith("A buried watering system for the lawn")
    said = " ".join(scope_sentences(subject))
    assert "15 rotary heads in 2 zones" in said
    assert "About 86 m of pipe in about 85 m of trench" in said
    assert not [word for word in said.split() if "." in word.rstrip(".,")]  # no tenth of a metre
    assert "A reduced-pressure device that keeps garden water out of your drinking water" in said


@pytest.mark.django_db
def test_a_stored_report_reads_back_the_same():
    load_price_book()
    revision = make_plan()
    report = check_revision(revision)
    assert report_of(report_to_dict(report)) == report
    assert Plan.model_validate(revision.document).layout.nodes


@pytest.mark.django_db
def test_an_offer_in_another_language_and_script_is_sealed_whole(clerk):
    load_price_book()
    company = get_company()
    company.locale, company.currency = "de_DE", "EUR"
    company.save()
    plan = make_plan()
    plan.site.customer.name = "Žofia 王 <b>Ö</b>"
    plan.site.customer.save()
    issued = issue_quote(quote=make_draft(clerk, plan), by=clerk)
    assert issued.seal.sealed["offer"]["customer"]["name"] == "Žofia 王 <b>Ö</b>"
    assert bytes(issued.seal.pdf).startswith(b"%PDF-")


@pytest.mark.django_db
def test_the_price_list_names_things_in_plain_words_once_and_without_a_count(clerk):
    """A section's price beside a count tells what one thing costs; catalogue names tell nothing."""
    quote = issue_quote(quote=make_draft(clerk), by=clerk)
    offer = quote.seal.sealed["offer"]
    said = {row["title"]: row["lines"] for row in offer["sections"]}
    assert said["Sprinklers and drip"] == ["Flexible joints under the heads", "Rotary heads"]
    assert said["Pipe and fittings"] == ["Buried pipe"]
    for lines in said.values():
        assert len(lines) == len(set(lines))
        assert not [line for line in lines if "up to" not in line and any(c.isdigit() for c in line)]


@pytest.mark.django_db
def test_the_readings_that_the_design_rests_on_are_shown():
    """Site S1: 420 kPa at rest, 310 kPa while 30 L/min runs (trade practice, by hand)."""
    subject = subject_of(make_draft())
    supply = subject.plan.supply.model_copy(
        update={
            "static_kpa": 420,
            "tests": (
                GaugeTest(kind="gauge", flow_lpm=30, residual_kpa=310),
                BucketTest(kind="bucket", litres=20, seconds=30),
                BucketTest(kind="bucket", litres=20, seconds=32),
                StaticTest(kind="static", pressure_kpa=415),
            ),
        }
    )
    plan = subject.plan.model_copy(update={"supply": supply})
    note = water(replace(subject, plan=plan))["note"]
    assert "420 kPa with no water running; 310 kPa while 30.0 L/min runs; 37.5 L/min into a bucket." in note
    us = water(replace(subject, plan=plan, units="us"))["note"]
    assert "61 psi with no water running; 45 psi while 7.9 US gal/min runs; 9.9 US gal/min" in us
    assert "relies on it" in us


@pytest.mark.parametrize(
    ("metres", "units", "said"),
    [
        (210.6, "metric", "211 m"),
        (4.6, "metric", "5 m"),
        (0.3, "metric", "less than 1 m"),
        (44.1, "us", "145 ft"),
    ],
)
def test_lengths_are_said_as_people_say_them(metres, units, said):
    assert round_length(metres, units) == said
