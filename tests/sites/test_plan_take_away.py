"""A plan revision taken away as GeoJSON, DXF and PDF."""

import io
import json

import ezdxf
import pytest
from django.urls import reverse
from pypdf import PdfReader

from tests.sites.makers import make_site


def address(site, name, query=""):
    return reverse(f"sites:{name}", args=[site.pk, 1]) + query


FILES = ("plan-geojson", "plan-dxf", "plan-pdf")


def test_who_may_take_a_plan_away(plan, site, owner_client, clerk_client, installer_client, client):
    for name in FILES:
        path = address(site, name)
        assert owner_client.get(path).status_code == 200
        assert clerk_client.get(path).status_code == 200
        assert clerk_client.head(path).status_code == 200
        assert installer_client.get(path).status_code == 403
        assert client.get(path).status_code == 302
        assert owner_client.post(path).status_code == 405


def test_a_plan_of_another_site_is_a_404(plan, customer, owner_client):
    other = make_site(customer, name="Other")
    assert [owner_client.get(address(other, name)).status_code for name in FILES] == [404] * 3


def test_the_page_lists_them_all(plan, site, clerk_client):
    page = clerk_client.get(address(site, "plan")).content.decode()
    for name in (*FILES, "plan-svg", "plan-json"):
        assert address(site, name) in page
    assert "Take away" in page


def test_the_files_are_what_their_names_say(plan, site, clerk_client):
    answer = clerk_client.get(address(site, "plan-geojson"))
    assert answer["Content-Type"].startswith("application/geo+json")
    assert 'filename="house-plan-1.geojson"' in answer["Content-Disposition"]
    assert "origin" not in json.loads(answer.content)["site_plane"]
    drawing = ezdxf.read(io.StringIO(clerk_client.get(address(site, "plan-dxf")).content.decode()))
    assert drawing.audit().errors == []
    reader = PdfReader(io.BytesIO(clerk_client.get(address(site, "plan-pdf", "?sheet=a3")).content))
    assert sorted(float(n) for n in reader.pages[0].mediabox[2:]) == pytest.approx([841.9, 1190.6], abs=0.1)
    words = reader.pages[0].extract_text()
    for wanted in ("House", "Mara Teal", "revision 1", "1:", "on A3", "located and marked", "local codes"):
        assert wanted in words, wanted


def test_a_site_in_us_units_gets_a_letter_sheet(plan, site, clerk_client):
    type(site).objects.filter(pk=site.pk).update(units="us")
    answer = clerk_client.get(address(site, "plan-pdf"))
    page = PdfReader(io.BytesIO(answer.content)).pages[0]
    assert sorted(float(n) for n in page.mediabox[2:]) == [612, 792]
    assert " ft" in page.extract_text()


@pytest.mark.parametrize("sheet", ["a0", "A4", "\x00", "../x"])
def test_an_unknown_sheet_is_a_404(plan, site, clerk_client, sheet):
    assert clerk_client.get(address(site, "plan-pdf"), {"sheet": sheet}).status_code == 404


def test_an_origin_puts_the_plan_on_the_globe(plan, site, clerk_client):
    whole = json.loads(clerk_client.get(address(site, "plan-geojson"), {"origin": "48.1, 11.5"}).content)
    assert whole["site_plane"]["origin"] == [11.5, 48.1]
    point = next(
        f["geometry"]["coordinates"] for f in whole["features"] if f["properties"]["layer"] == "Supply"
    )
    assert point == [pytest.approx(11.5, abs=0.01), pytest.approx(48.1, abs=0.01)]


@pytest.mark.parametrize("origin", ["x", "48.1", "91,0", "48.1,200", "nan,nan", "1e3,0", "\x00", "9" * 5000])
def test_an_origin_that_is_no_place_is_said(plan, site, clerk_client, origin):
    answer = clerk_client.get(address(site, "plan-geojson"), {"origin": origin})
    assert answer.status_code == 422
    assert "latitude,longitude" in answer.content.decode()
