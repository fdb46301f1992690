"""A visit's readings in a drawing that was begun before it."""

import pytest

from hydraulics.units import parse_quantity
from sites.drafts import drawing_for
from sites.models import PlanDraft
from tests.sites.makers import make_plan, make_visit, plan_document

BUTTON = "Put these readings on the drawing board"


@pytest.fixture
def visit(site):
    return make_visit(site, static=parse_quantity("3.9 bar", "pressure", "bar"))


def test_a_fresh_drawing_has_them_already(clerk_client, clerk, visit):
    assert BUTTON not in clerk_client.get(f"/visits/{visit.pk}/").content.decode()
    assert drawing_for(site=visit.site, person=clerk).document["supply"]["static_kpa"] == 390


def test_a_plan_drawn_before_takes_them_and_keeps_all_else(clerk_client, clerk, visit, parts_book):
    make_plan(visit.site)
    assert BUTTON in clerk_client.get(f"/visits/{visit.pk}/").content.decode()
    answer = clerk_client.post(f"/visits/{visit.pk}/board/")
    assert answer["Location"] == f"/sites/{visit.site_id}/board/"
    drawn = drawing_for(site=visit.site, person=clerk)
    before = plan_document()
    assert drawn.began_from == 1
    assert drawn.document["supply"]["static_kpa"] == 390
    assert drawn.document["supply"]["at"] == before["supply"]["at"]
    assert drawn.document["layout"]["nodes"] == visit.site.plans.get().document["layout"]["nodes"]
    assert BUTTON not in clerk_client.get(f"/visits/{visit.pk}/").content.decode()


def test_only_the_office_puts_them_and_only_by_post(client, installer_client, clerk_client, visit):
    url = f"/visits/{visit.pk}/board/"
    assert client.post(url).status_code == 302
    assert installer_client.post(url).status_code in (403, 404)
    assert clerk_client.get(url).status_code == 405
    assert not PlanDraft.objects.exists()
