"""Pipe sizes by API."""

import pytest
from django.urls import reverse

from sites.models import PlanRevision


@pytest.fixture
def address(plan):
    return reverse("api-sizes", args=[plan.site_id, 1])


def post(client, address, body):
    return client.post(address, body, content_type="application/json")


def test_who_may_ask(address, owner_client, clerk_client, installer_client, client):
    assert post(owner_client, address, {}).status_code == 200
    assert post(clerk_client, address, {}).status_code == 200
    assert post(installer_client, address, {}).status_code == 403
    assert post(client, address, {}).status_code in (401, 403)
    assert owner_client.get(address).status_code == 405
    assert owner_client.put(address).status_code == 405


def test_the_answer_has_costs_bound_and_plan_and_saves_nothing(address, owner_client):
    found = post(owner_client, address, {}).json()
    assert found["outcome"] == "least"
    assert found["gap_pct"] == 0
    assert found["lower_bound"] == found["cost_after"]
    assert found["plan"]["format"] == "plan/1"
    assert PlanRevision.objects.count() == 1


def test_pipes_may_stay(address, owner_client):
    found = post(owner_client, address, {"keep": ["M1"]}).json()
    assert [left["pipe"] for left in found["left"]] == ["M1"]


@pytest.mark.parametrize(
    "body", [{"keep": ["XX"]}, {"keep": "M1"}, {"keep": [{}]}, [], "x", {"keep": ["M" * 50]}]
)
def test_bad_input_is_a_400(address, owner_client, body):
    assert post(owner_client, address, body).status_code == 400


def test_a_plan_that_is_not_there_is_a_404(plan, owner_client):
    assert post(owner_client, reverse("api-sizes", args=[plan.site_id, 9]), {}).status_code == 404


def test_a_plan_without_heads_is_a_422(site, parts_book, owner_client):
    from tests.sites.makers import make_plan

    bare = make_plan(site, document={"format": "plan/1", "supply": {"at": [0, 0], "static_kpa": 400}})
    answer = post(owner_client, reverse("api-sizes", args=[site.pk, bare.number]), {})
    assert answer.status_code == 422
    assert "nothing to size yet" in answer.json()["detail"]
