"""The picture of water on the page of a plan."""

import xml.etree.ElementTree as ElementTree

import pytest
from django.urls import reverse

from tests.sites.makers import make_plan, make_site, plan_document, take_in_parts


@pytest.fixture
def plan(db):
    take_in_parts()
    return make_plan(make_site())


def address(plan):
    return reverse("sites:plan-wetting", args=[plan.site_id, plan.number])


def test_the_page_shows_the_picture_and_its_figures(plan, owner_client):
    text = owner_client.get(reverse("sites:plan", args=[plan.site_id, 1])).content.decode()
    assert f'src="{address(plan)}"' in text
    assert "no dry spot, and no water beside it" in text
    answer = owner_client.get(address(plan))
    assert answer["Content-Type"] == "image/svg+xml; charset=utf-8"
    ElementTree.fromstring(answer.content)
    assert "mean 10.0 mm/h" in answer.content.decode()


def test_dry_spots_and_lost_water_stand_in_tables(plan, owner_client):
    """The lawn grows to the south, where no head reaches, and shrinks in the north, where heads throw."""
    document = plan_document()
    document["ground"]["areas"][0]["outline"] = [[0, -8], [24, -8], [24, 9], [0, 9]]
    make_plan(plan.site, document=document, began_from=1)
    text = owner_client.get(reverse("sites:plan", args=[plan.site_id, 2])).content.decode()
    assert "Dry spots" in text
    assert "ground beside it" in text
    assert "Water beside the areas while its heads run" in text


def test_only_the_office_may_see_it(plan, clerk_client, installer_client, client):
    assert clerk_client.get(address(plan)).status_code == 200
    assert clerk_client.post(address(plan)).status_code == 405
    assert installer_client.get(address(plan)).status_code == 403
    assert client.get(address(plan)).status_code == 302
    assert clerk_client.get(reverse("sites:plan-wetting", args=[plan.site_id, 9])).status_code == 404


def test_a_plan_that_sprays_nothing_or_cannot_be_checked_has_no_picture(plan, owner_client):
    from parts.models import Part

    Part.objects.filter(code="rotary-6").update(active=False)
    assert owner_client.get(address(plan)).status_code == 404
