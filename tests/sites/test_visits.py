"""A site visit: typed in the units at hand, kept in SI, doubted where it should be."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from office.navigation import panels_for
from sites.models import FlowTest, Visit
from sites.visit_columns import data_of
from tests.sites.makers import make_plan, visit_post

GOOD = {
    "static": "58", "static_tap": "garage tap",
    "bucket-0-volume": "5", "bucket-0-fill": "44", "bucket-1-volume": "5 gal", "bucket-1-fill": "45 s",
    "gauge-0-flow": "5.5", "gauge-0-residual": "44 psi", "meter": "meter-0.625in",
    "service_material": "copper", "service_bore": "0.785", "service_length": "41",
    "connection_z": "-3 ft 4 in", "height-0-place": "Back lawn", "height-0-height": "1",
}  # fmt: skip


@pytest.fixture
def address(us_site, parts_book):
    return reverse("sites:visit-add", args=[us_site.pk])


@pytest.fixture
def visit(address, owner_client):
    owner_client.post(address, visit_post(**GOOD))
    return Visit.objects.get()


def test_every_figure_is_kept_in_si_with_the_typed_text(visit):
    # NIST SP 811 appendix B: 1 psi = 6.894757 kPa, 1 US gal = 3.785411784 L, 1 in = 25.4 mm
    assert visit.static_kpa == pytest.approx(58 * 6.894757)
    assert visit.static_text == "58 psi"
    assert visit.service_bore_mm == pytest.approx(0.785 * 25.4)
    assert visit.service_length_m == pytest.approx(41 * 0.3048)
    assert (visit.connection_z_m, visit.connection_z_text) == (pytest.approx(-1.016), "-3 ft 4 in")
    first, second, gauge = visit.tests.all()
    assert (first.kind, first.volume_l, first.fill_s) == ("bucket", pytest.approx(18.92706), 44)
    assert (first.volume_text, second.volume_text, second.fill_text) == ("5 gal", "5 gal", "45 s")
    assert (gauge.flow_lpm, gauge.residual_kpa) == (
        pytest.approx(20.8198, rel=1e-4),
        pytest.approx(44 * 6.894757),
    )
    assert visit.heights.get().height_m == pytest.approx(0.3048)


def test_the_page_of_a_visit_shows_readings_and_what_they_say(visit, owner_client):
    page = owner_client.get(reverse("sites:visit", args=[visit.pk])).content.decode()
    for text in (
        "58 psi",
        "6.67 US gal/min (25.2 L/min)",
        "44 psi while 5.5 gpm runs",
        "Back lawn",
        "Measured",
    ):
        assert text in page


def test_who_may(visit, us_site, owner_client, clerk_client, installer_client, client):
    for name, pk in (("visit-add", us_site.pk), ("visit", visit.pk), ("visit-edit", visit.pk)):
        address = reverse(f"sites:{name}", args=[pk])
        assert owner_client.get(address).status_code == 200
        assert clerk_client.get(address).status_code == 200
        assert installer_client.get(address).status_code == 403
        assert client.get(address).status_code == 302
        assert owner_client.put(address).status_code == 405
        assert owner_client.get(reverse(f"sites:{name}", args=[9999])).status_code == 404


def test_an_impossible_figure_is_refused_beside_it_and_all_stays_typed(address, owner_client):
    answer = owner_client.post(address, visit_post(**{**GOOD, "static": "60 bar"}))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Did you mean 60.0 psi (4.14 bar)?" in page
    assert 'href="#id_static"' in page
    for typed in ("60 bar", "garage tap", "0.785", "-3 ft 4 in", "Back lawn"):
        assert f'value="{typed}"' in page
    assert not Visit.objects.exists()


def test_an_unusual_figure_asks_until_it_is_ticked(address, owner_client):
    unusual = visit_post(**{**GOOD, "static": "120"})
    answer = owner_client.post(address, unusual)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Yes, this is right: 120" in page
    assert not Visit.objects.exists()
    token = page.split('name="confirm" value="')[1].split('"')[0]
    other = owner_client.post(address, {**unusual, "static": "121", "confirm": token})
    assert other.status_code == 422
    answer = owner_client.post(address, {**unusual, "confirm": token})
    assert answer.status_code == 302
    visit = Visit.objects.get()
    assert visit.confirmed == [token]
    # on the page to correct it, the tick is still set
    assert "checked" in owner_client.get(reverse("sites:visit-edit", args=[visit.pk])).content.decode()


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"static": "NaN"}, "is not a number"), ({"static": "many"}, "is not a number"),
        ({"static": "-4"}, "cannot be negative"), ({"static": "4" * 50}, "at most 40"),
        ({"static": "4.5 stones"}, "is no unit of pressure"),
        ({"visited_on": ""}, "required"), ({"visited_on": "soon"}, "valid date"),
        ({"measured_by": ""}, "required"), ({"visited_at": "25:99"}, "valid time"),
        ({"bucket-0-fill": ""}, "Fill it in, or clear the row"),
        ({"gauge-0-residual": ""}, "Fill it in, or clear the row"),
        ({"height-0-place": ""}, "Fill it in, or clear the row"),
        ({"height-0-height": "3 ft 14 in"}, "inches must stay below 12"),
        ({"meter": "pvc-25"}, "not one of the available choices"),
        ({"bucket-TOTAL_FORMS": "many"}, "ManagementForm"), ({"bucket-TOTAL_FORMS": "5000"}, "at most 40"),
        ({"remarks": "x" * 5001}, "at most 5000"), ({"static_tap": "a\x00"}, "Null characters"),
    ],
)  # fmt: skip
def test_bad_input_gets_a_sentence_and_nothing_is_stored(address, owner_client, fields, sentence):
    answer = owner_client.post(address, visit_post(**{**GOOD, **fields}))
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert not Visit.objects.exists()
    assert not FlowTest.objects.exists()


@pytest.mark.parametrize(("kind", "rows"), [("bucket", 4), ("gauge", 2), ("height", 2)])
def test_another_row_is_added_and_what_was_typed_stays(address, owner_client, kind, rows):
    answer = owner_client.post(address, visit_post(**GOOD, add=kind))
    page = answer.content.decode()
    assert answer.status_code == 200
    assert f'name="{kind}-TOTAL_FORMS" value="{rows}"' in page
    assert 'value="garage tap"' in page
    assert not Visit.objects.exists()


def test_work_it_out_saves_nothing(address, owner_client):
    answer = owner_client.post(address, visit_post(**GOOD, work_out="1"))
    assert answer.status_code == 200
    assert "5 gal in 45 s is 6.67 US gal/min" in answer.content.decode()
    assert not Visit.objects.exists()


def form_of(client, visit):
    """The fields of the edit page, as a browser would send them back."""
    page = client.get(reverse("sites:visit-edit", args=[visit.pk])).context["page"]
    forms = [
        page.form,
        *(form for rows in page.rows.values() for form in [rows.management_form, *rows.forms]),
    ]
    data = {}
    for form in forms:
        for bound in form:
            value = bound.value()
            data[bound.html_name] = "" if value is None else str(value)
    return data


def test_saving_the_page_unchanged_keeps_every_figure(visit, owner_client):
    before = data_of(visit)
    owner_client.post(reverse("sites:visit-edit", args=[visit.pk]), form_of(owner_client, visit))
    visit = Visit.objects.get()
    assert visit.version == 2
    assert data_of(visit) == before


def test_a_clash_shows_both_versions_and_loses_neither(visit, owner_client, clerk_client):
    address, data = reverse("sites:visit-edit", args=[visit.pk]), form_of(owner_client, visit)
    assert owner_client.post(address, {**data, "static": "57 psi"}).status_code == 302
    answer = clerk_client.post(address, {**data, "static": "56 psi", "bucket-0-fill": "46 s"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "57 psi" in page
    assert 'value="56 psi"' in page
    assert "46 s" in page
    assert Visit.objects.get().static_text == "57 psi"
    again = clerk_client.post(address, {**data, "static": "56 psi", "began_from": "2"})
    assert again.status_code == 302
    assert Visit.objects.get().static_text == "56 psi"


def test_a_visit_without_a_plan_waits_on_the_daily_page(visit, owner, us_site):
    def waiting():
        panel = next(p for p in panels_for(owner) if p["title"] == "Visits waiting for a plan")
        return panel["rows"]

    Visit.objects.update(visited_on=timezone.localdate() - timedelta(days=3))
    assert [(row.urgent, "Cabin" in row.text) for row in waiting()] == [(True, True)]
    make_plan(us_site)
    assert waiting() == []
