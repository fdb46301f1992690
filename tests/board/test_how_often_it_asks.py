"""What the drawing board and its pages ask of the database, however large the plan is."""

import copy

import pytest
from django.urls import reverse

from tests.sites.makers import make_plan

# session, person and site come first each time
CHECK, DRAFT, BOARD, COMPARE = 5, 11, 12, 29


@pytest.fixture(params=["s1", "many notes"])
def document(request, plan):
    found = copy.deepcopy(plan.document)
    count = 1 if request.param == "s1" else 200
    found["layout"]["notes"] = [
        {"id": f"n{n}", "at": [n / 100, 1], "text": "dig by hand"} for n in range(count)
    ]
    return found


def test_the_check_asks_for_the_parts_stamp_and_the_limits_only(send, document, django_assert_num_queries):
    body = {"document": document, "before": None}
    send("check", body)
    with django_assert_num_queries(CHECK):
        assert send("check", body).status_code == 200


def test_saving_a_draft(send, document, django_assert_num_queries):
    body = {"document": document, "began_from": 1, "name": ""}
    version = send("draft", {**body, "draft_version": 0}).json()["draft_version"]
    with django_assert_num_queries(DRAFT):
        assert send("draft", {**body, "draft_version": version}).status_code == 200


def test_the_pages(site, document, clerk, clerk_client, django_assert_num_queries):
    make_plan(site, document=document, began_from=1, by=clerk)
    compare = reverse("sites:compare", args=[site.pk])
    for address, count in ((f"/sites/{site.pk}/board/", BOARD), (compare, COMPARE)):
        clerk_client.get(address)
        with django_assert_num_queries(count):
            assert clerk_client.get(address).status_code == 200
