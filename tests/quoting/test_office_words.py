"""What the office reads on a quote: parts by name, quantities in the site's units, amounts with a sign."""

from decimal import Decimal

import pytest
from django.urls import reverse

from quoting.forms import LineForm
from quoting.models import Kind, QuoteLine
from quoting.priced_quote import PriceFinding
from quoting.templatetags.quoting_words import amount, price_words, signs
from tests.quoting.factories import make_draft

D = Decimal


@pytest.mark.parametrize(
    ("value", "unit", "system", "written"),
    [
        (D("25.000"), "m", "metric", "25 m"),
        (D("25.000"), "m", "us", "82 ft"),  # NIST SP 811: 1 ft = 0.3048 m; 25 m = 82.02 ft
        (D("0.06"), "m3", "metric", "0.06 m³"),
        (D("0.06"), "m3", "us", "2.1 ft³"),  # 0.06 / 0.3048^3 = 2.119
        (D("10"), "m2", "us", "107.6 ft²"),
        (D("1"), "roll", "metric", "1 roll"),
        (D("2"), "roll", "us", "2 rolls"),
        (D("15"), "each", "metric", "15 each"),
        (None, "m", "metric", "—"),
    ],
)
def test_a_quantity_in_the_units_of_the_site(value, unit, system, written):
    assert amount(value, unit, system) == written


def test_a_measure_with_its_sign():
    assert signs("m2/h") == "m²/h"


@pytest.mark.django_db
def test_an_amount_in_a_finding_has_its_currency():
    lost = PriceFinding("x", "note", (), D("102.32"), D(0), "money", "It would give away 102.32.", "s")
    share = PriceFinding("y", "warn", (), D("33.0"), D(35), "%", "33.0 % is left.", "s")
    assert price_words({}, lost) == "It would give away €102.32."
    assert price_words({}, share) == "33.0 % is left."


@pytest.mark.django_db
def test_two_tees_are_two_names_on_the_page_and_in_the_choice(clerk_client):
    draft = make_draft()
    page = clerk_client.get(reverse("quoting:quote", args=[draft.pk])).content.decode()
    assert "Tee, solvent 25, threaded outlet 15" in page
    assert "unnamed" not in page
    names = [name for value, name in LineForm(quote=draft).fields["alternative_to"].choices if value]
    assert len([name for name in names if name.startswith("Tee")]) == 2
    assert len(set(names)) == len(names)


@pytest.mark.django_db
def test_a_note_on_a_line_by_hand_does_not_replace_its_words():
    line = QuoteLine(kind=Kind.MATERIAL, text="Bench", internal_text="ask the yard first")
    assert line.office_text == "Bench"


@pytest.mark.django_db
def test_quantities_to_edit_have_no_idle_zeros(clerk_client):
    draft = make_draft()
    line = draft.lines.get(key="pvc-25@6")
    page = clerk_client.get(reverse("quoting:line", args=[draft.pk, line.pk])).content.decode()
    assert 'value="16"' in page


@pytest.mark.django_db
def test_a_quote_leads_to_its_customer_site_and_plan(clerk_client):
    draft = make_draft()
    page = clerk_client.get(reverse("quoting:quote", args=[draft.pk])).content.decode()
    assert reverse("sites:customer", args=[draft.site.customer_id]) in page
    assert reverse("sites:plan", args=[draft.site_id, draft.plan.number]) in page
