"""The quoting API: who may, what it takes, what it refuses."""

import pytest
from django.test import Client
from django.utils import timezone

from quoting.models import Quote
from tests.quoting.factories import load_price_book, make_draft, make_issued, make_plan

pytestmark = pytest.mark.django_db


def post(client, url, body=None):
    return client.post(url, body if body is not None else {}, content_type="application/json")


def url_of(quote, ending=""):
    return f"/api/quotes/{quote.pk}/{ending}"


ENDPOINTS = [
    ("get", "", "draft"),
    ("delete", "", "draft"),
    ("get", "lines/", "draft"),
    ("post", "rework/", "draft"),
    ("post", "issue/", "draft"),
    ("post", "accept/", "issued"),
    ("post", "decline/", "issued"),
    ("post", "revise/", "issued"),
    ("post", "link/", "issued"),
]


@pytest.mark.parametrize(("method", "ending", "state"), ENDPOINTS)
def test_who_may(method, ending, state, clerk, clerk_client, owner_client, installer_client):
    quote = make_draft(clerk) if state == "draft" else make_issued(clerk)
    url = url_of(quote, ending)
    ask = {"content_type": "application/json"} if method == "post" else {}
    assert getattr(Client(), method)(url, **ask).status_code == 403
    assert getattr(installer_client, method)(url, **ask).status_code == 403
    assert Quote.objects.get(pk=quote.pk).status == state
    assert getattr(clerk_client, method)(url, **ask).status_code in (200, 201, 204, 400)
    wrong = "put" if method == "post" else "post"
    assert getattr(owner_client, wrong)(url, {}, content_type="application/json").status_code in (404, 405)


def test_who_may_list_and_draft(clerk, clerk_client, installer_client):
    load_price_book()
    plan = make_plan()
    for client in (Client(), installer_client):
        assert client.get("/api/quotes/").status_code == 403
        assert post(client, "/api/quotes/", {"plan": plan.pk}).status_code == 403
    made = post(clerk_client, "/api/quotes/", {"plan": plan.pk})
    assert made.status_code == 201
    assert made.json()["total"] == "5707.80"
    assert clerk_client.get("/api/quotes/").json()["count"] == 1
    assert clerk_client.get("/api/quotes/?status=issued").json()["count"] == 0
    assert clerk_client.get("/api/quotes/?q=ada").json()["count"] == 1


@pytest.mark.parametrize(
    "body", [{}, {"plan": 0}, {"plan": "x"}, {"plan": 10**30}, {"plan": 999999}, [1], "x", None]
)
def test_a_bad_plan_is_a_400(clerk_client, body):
    response = clerk_client.post("/api/quotes/", body, content_type="application/json")
    assert response.status_code == 400


def test_a_plan_that_cannot_be_priced_is_a_400_with_the_reason(clerk_client):
    response = post(clerk_client, "/api/quotes/", {"plan": make_plan().pk})
    assert response.status_code == 400
    assert "cannot be priced yet" in response.json()["plan"][0]


def test_the_life_of_a_quote(draft, clerk_client, clerk):
    stale = post(clerk_client, url_of(draft, "issue/"), {"version": draft.version + 5})
    assert stale.status_code == 409
    assert stale.json()["current"]["version"] == draft.version
    issued = post(clerk_client, url_of(draft, "issue/"), {"version": draft.version})
    assert issued.status_code == 200
    assert issued.json()["status"] == "issued"
    assert len(issued.json()["digest"]) == 64
    again = post(clerk_client, url_of(draft, "issue/"), {"version": draft.version + 1})
    assert again.status_code == 409
    assert "new revision" in again.json()["detail"]
    link = post(clerk_client, url_of(draft, "link/"))
    assert link.status_code == 201
    assert "/o/" in link.json()["address"]
    assert Client().get(link.json()["address"]).status_code == 200
    assert post(clerk_client, url_of(draft, "accept/"), {"name": "Ada"}).status_code == 400
    yes = {"name": "Ada Example", "signed_on": timezone.localdate().isoformat()}
    assert post(clerk_client, url_of(draft, "accept/"), {**yes, "options": [1]}).status_code == 400
    accepted = post(clerk_client, url_of(draft, "accept/"), yes)
    assert accepted.status_code == 200
    assert accepted.json()["acceptance"]["name"] == "Ada Example"
    assert post(clerk_client, url_of(draft, "accept/"), yes).status_code == 409
    assert post(clerk_client, url_of(draft, "decline/"), {"reason": "no"}).status_code == 409
    assert post(clerk_client, url_of(draft, "revise/")).status_code == 409
    assert clerk_client.delete(url_of(draft)).status_code == 409


def test_declining_and_revising(issued, clerk_client):
    assert post(clerk_client, url_of(issued, "decline/"), {"reason": ""}).status_code == 400
    assert (
        post(clerk_client, url_of(issued, "decline/"), {"reason": "Too dear"}).json()["status"] == "declined"
    )
    revised = post(clerk_client, url_of(issued, "revise/"))
    assert revised.status_code == 201
    assert (revised.json()["revision"], revised.json()["replaces"]) == (2, issued.pk)
    assert post(clerk_client, url_of(issued, "revise/")).status_code == 409


def test_lines_are_read_and_changed(draft, clerk_client):
    rows = clerk_client.get(url_of(draft, "lines/")).json()
    line = next(row for row in rows if row["text"] == "Rotary heads")
    assert line["quantity"] == "15.000"
    assert len(line["where"]) == 15
    url = url_of(draft, f"lines/{line['id']}/")

    def patch(**body):
        return clerk_client.patch(url, body, content_type="application/json")

    assert patch(quantity="2").status_code == 400  # which version?
    assert patch(version=1, price="5.00").status_code == 400  # why?
    assert patch(version=1, quantity="-2").status_code == 400
    assert patch(version=1, quantity="NaN").status_code == 400
    changed = patch(version=1, quantity="30", text="More heads")
    assert changed.status_code == 200
    assert changed.json()["version"] == 2
    clash = patch(version=1, text="Other")
    assert clash.status_code == 409
    assert clash.json()["current"]["text"] == "More heads"
    priced = patch(version=2, price="500.00", price_reason="agreed").json()
    assert (priced["price"], priced["price_fixed"]) == ("500.00", True)
    assert patch(version=3, price=None).json()["price_fixed"] is False


def test_rework_discard_and_lines_of_what_is_out(draft, issued, clerk_client):
    assert post(clerk_client, url_of(draft, "rework/"), {"version": 999}).status_code == 409
    assert post(clerk_client, url_of(draft, "rework/"), {"version": draft.version}).status_code == 200
    assert clerk_client.delete(url_of(draft)).status_code == 204
    assert clerk_client.get(url_of(draft)).status_code == 404
    line = issued.lines.first()
    response = clerk_client.patch(
        url_of(issued, f"lines/{line.pk}/"),
        {"version": line.version, "text": "x"},
        content_type="application/json",
    )
    assert response.status_code == 409


@pytest.mark.parametrize("path", ["999999/", "999999999999999/", "0/", "999999/lines/", "999999/lines/1/"])
def test_what_is_not_there_is_a_404(clerk_client, path):
    if path.endswith("lines/1/"):
        response = clerk_client.patch(f"/api/quotes/{path}", {"version": 1}, content_type="application/json")
    else:
        response = clerk_client.get(f"/api/quotes/{path}")
    assert response.status_code == 404
