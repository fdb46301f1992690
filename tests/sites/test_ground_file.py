"""From an uploaded file to the drawing board: choose, say what is what, put it there; nothing gets lost."""

import re

import pytest
from django.core.cache import cache
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from sites.models import PlanDraft
from tests.conftest import client_of
from tests.exchange.makers import dxf_bytes, feature, geojson_bytes
from tests.sites.makers import make_site

LAWN = [[0, 0], [20_000, 0], [20_000, 12_000], [0, 12_000]]


def drawing(units=0):
    def draw(space, _):
        space.add_lwpolyline(LAWN, close=True, dxfattribs={"layer": "Plot & Co"})
        space.add_line((0, 13_000), (20_000, 13_000), dxfattribs={"layer": "Edge"})
        space.add_point((1000, 1000), dxfattribs={"layer": "Pegs"})

    return dxf_bytes(draw, units=units)


@pytest.fixture
def address(site):
    return reverse("sites:ground-file", args=[site.pk])


def upload(client, address, data, name="plot.dxf", **typed):
    return client.post(address, {"file": SimpleUploadedFile(name, data), **typed})


@pytest.fixture
def layers_address(address, clerk_client):
    answer = upload(clerk_client, address, drawing())
    assert answer.status_code == 302
    return answer["Location"]


CHOSEN = {"unit": "mm", "place": "keep", "turn": "", "layer-0": "area-bed", "layer-1": "mark",
          "layer-2": "surface-fence"}  # fmt: skip


def test_who_may_bring_a_file(address, layers_address, owner_client, clerk_client, installer_client, client):
    for path in (address, layers_address):
        assert clerk_client.get(path).status_code == 200
        assert clerk_client.delete(path).status_code == 405
        assert installer_client.get(path).status_code == 403
        assert installer_client.post(path).status_code == 403
        assert client.get(path).status_code == 302
    assert owner_client.get(address).status_code == 200


def test_a_missing_site_is_a_404(clerk_client, site):
    assert clerk_client.get(reverse("sites:ground-file", args=[site.pk + 9])).status_code == 404


def test_the_kept_file_is_found_by_nobody_else_and_on_no_other_site(
    layers_address, site, customer, clerk_client, owner_client
):
    assert owner_client.get(layers_address).status_code == 410
    other = make_site(customer, name="Other")
    assert clerk_client.get(layers_address.replace(f"/{site.pk}/", f"/{other.pk}/")).status_code == 410


def test_the_page_says_what_is_in_the_file(layers_address, clerk_client):
    page = clerk_client.get(layers_address).content.decode()
    assert "Plot &amp; Co" in page
    assert "Plot & Co" not in page
    for words in (
        "1 outline",
        "1 line",
        "1 point",
        "20.0 m by 12.0 m",
        "does not say in which unit",
        "20.0 m across",
    ):
        assert words in page, words
    assert page.count("<path ") == 3
    assert ' style="' not in page


def test_the_ground_lands_on_the_board(layers_address, site, clerk, clerk_client):
    answer = clerk_client.post(layers_address, CHOSEN)
    assert answer["Location"] == reverse("sites:board", args=[site.pk])
    ground = PlanDraft.objects.get(site=site, person=clerk).document["ground"]
    (area,), (fence,), (mark,) = ground["areas"], ground["surfaces"], ground["marks"]
    assert area["outline"] == [[0, 0], [20, 0], [20, 12], [0, 12]]
    assert (area["cover"], fence["kind"], mark["at"]) == ("bed", "fence", [1, 1])
    assert clerk_client.get(layers_address).status_code == 410, "the kept file is not needed any more"


def test_a_corrected_file_replaces_what_it_brought(address, layers_address, site, clerk, clerk_client):
    clerk_client.post(layers_address, CHOSEN)
    again = upload(clerk_client, address, drawing())["Location"]
    clerk_client.post(again, {**CHOSEN, "place": "zero", "turn": "90"})
    (area,) = PlanDraft.objects.get(site=site, person=clerk).document["ground"]["areas"]
    assert max(y for _, y in area["outline"]) == 20


@pytest.mark.parametrize(("changed", "words"), [
    ({"unit": ""}, "Say in which unit"),
    ({"unit": "parsec"}, "Select a valid choice"),
    ({"unit": "m"}, "20.0 km across, which is hardly a garden"),
    ({"turn": "north"}, "Type the degrees"),
    ({"turn": "nan"}, "Type the degrees"),
    ({"turn": "1000"}, "less than or equal to 360"),
    ({"place": ""}, "required"),
    ({"layer-0": "lava"}, "Select a valid choice"),
    ({"layer-0": "leave", "layer-1": "leave", "layer-2": "leave"}, "Every layer is left out"),
    ({"layer-0": "service-gas", "layer-1": "area-turf", "layer-2": "leave"}, "Select a valid choice"),
])  # fmt: skip
def test_a_choice_that_cannot_be_is_answered_beside_it_and_kept(layers_address, clerk_client, changed, words):
    answer = clerk_client.post(layers_address, {**CHOSEN, **changed})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert words in page
    assert "Everything that you chose is still here" in page
    if "layer-2" not in changed:
        assert re.search(r'value="surface-fence"\s+selected', page)
    if changed.get("turn"):
        assert f'value="{changed["turn"]}"' in page
    assert not PlanDraft.objects.exists()


def test_an_unlikely_unit_is_taken_when_sent_once_more(address, clerk_client, site):
    """A raised bed of 1.2 m is small for a garden, and may be what was measured."""
    box = [[0, 0], [1.2, 0], [1.2, 0.6], [0, 0.6], [0, 0]]
    path = upload(clerk_client, address, geojson_bytes(feature("Polygon", [box])), "bed.geojson")["Location"]
    data = {"unit": "m", "place": "keep", "layer-0": "area-bed"}
    first = clerk_client.post(path, data)
    assert first.status_code == 422
    assert "1.2 m across" in first.content.decode()
    assert 'name="asked_unit" value="m"' in first.content.decode()
    assert clerk_client.post(path, {**data, "asked_unit": "m"}).status_code == 302


def test_what_is_too_far_away_says_what_to_do(address, clerk_client):
    box = [[445_000, 5_330_000], [445_030, 5_330_000], [445_030, 5_330_020], [445_000, 5_330_000]]
    path = upload(clerk_client, address, geojson_bytes(feature("Polygon", [box])), "grid.json")["Location"]
    data = {"unit": "m", "place": "keep", "layer-0": "area-turf"}
    assert "Move the lower left corner" in clerk_client.post(path, data).content.decode()
    assert clerk_client.post(path, {**data, "place": "zero"}).status_code == 302


def test_after_an_hour_the_choices_come_along_with_the_file(address, layers_address, clerk_client):
    cache.clear()
    answer = clerk_client.post(layers_address, {**CHOSEN, "turn": "12.5"})
    page = answer.content.decode()
    assert answer.status_code == 410
    carried = dict(re.findall(r'type="hidden" name="([a-z0-9-]+)" value="([^"]*)"', page))
    assert carried["layer-2"] == "surface-fence"
    again = upload(clerk_client, address, drawing(), **carried)["Location"]
    page = clerk_client.get(again).content.decode()
    assert 'value="12.5"' in page
    assert re.search(r'value="surface-fence"\s+selected', page)


@pytest.mark.parametrize(("name", "data", "words"), [
    ("plot.dwg", b"x", "name ends with"),
    ("plot.dxf", b"PK\x03\x04", "ZIP archive"),
    ("plot.dxf", b"\x00\x01", "binary"),
    ("plot.gpx", b"<gpx", "no sound GPX"),
    ("plot.json", b"{}", "no GeoJSON"),
    ("plot.dxf", b"0\n" * 2_600_000, "at most 5 MB"),
])  # fmt: skip
def test_a_file_that_cannot_be_read_is_answered_beside_the_field(address, clerk_client, name, data, words):
    answer = upload(clerk_client, address, data, name)
    assert answer.status_code == 422
    assert words in answer.content.decode()


def test_without_a_file(address, clerk_client):
    answer = clerk_client.post(address, {})
    assert answer.status_code == 422
    assert "Choose a file first" in answer.content.decode()


def test_another_person_in_the_office_has_a_board_of_their_own(address, site, owner, clerk, owner_client):
    path = upload(owner_client, address, drawing())["Location"]
    owner_client.post(path, CHOSEN)
    assert [draft.person for draft in PlanDraft.objects.all()] == [owner]
    assert client_of(clerk).get(path).status_code == 410


def test_in_us_units_sizes_are_in_feet(us_site, clerk_client):
    """20 m by 12 m are 65.6 ft by 39.4 ft, by 0.3048 m a foot (NIST SP 811, appendix B.8)."""
    address = reverse("sites:ground-file", args=[us_site.pk])
    page = clerk_client.get(upload(clerk_client, address, drawing())["Location"]).content.decode()
    assert "65.6 ft by 39.4 ft" in page
    assert "20.0 m by" not in page
