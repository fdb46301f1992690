"""Heights measured on a visit, by the name of the tap at which a flow test was made."""

import json

import pytest
from django.urls import reverse

from hydraulics.supply import fit_supply
from sites.plan_start import with_readings
from sites.supply_readings import heights_by_tap, supply_readings
from sites.visit_columns import data_of
from tests.sites.makers import visit_post

pytestmark = pytest.mark.django_db

FIGURES = {
    "static": "4.5", "gauge-0-flow": "40", "gauge-0-residual": "3.1", "gauge-0-tap": "Terrace  tap",
    "height-0-place": "terrace tap", "height-0-height": "3",
}  # fmt: skip


@pytest.fixture
def visit(site, parts_book, owner_client):
    owner_client.post(reverse("sites:visit-add", args=[site.pk]), visit_post(**FIGURES))
    return site.visits.get()


def test_the_plan_puts_the_tap_at_its_height(visit, owner_client):
    page = owner_client.get(reverse("sites:plan-start", args=[visit.pk]))
    supply = json.loads(page.context["form"].initial["document"])["supply"]
    (gauge,) = [test for test in supply["tests"] if test["kind"] == "gauge"]
    assert (gauge["tap"], gauge["z_m"]) == ("Terrace  tap", 3)


def test_a_plan_whose_static_tap_has_a_height_adds_to_it(visit):
    document = with_readings({"supply": {"at": [1, 1], "z_m": 2.0}}, visit)
    (gauge,) = [test for test in document["supply"]["tests"] if test["kind"] == "gauge"]
    assert gauge["z_m"] == 5
    assert document["supply"]["z_m"] == 2.0


def test_the_curve_of_the_visit_counts_the_height(visit):
    (reading,) = [r for r in supply_readings(data_of(visit)) if hasattr(r, "residual_kpa")]
    assert reading.above_m == 3.0
    curve = fit_supply(450, (reading,))
    assert curve.pressure_kpa(40) == pytest.approx(310 + 3 * 9.80665)


def test_a_height_of_no_named_place_raises_no_tap():
    assert heights_by_tap({" ": 3.0, "Hill": 2.0}) == {"hill": 2.0}
