"""The offer of cheaper pipes on a plan: who sees it, what it says, and what taking it over does."""

import html
import re

import pytest
from django.urls import reverse

from sites import sizing_services
from sites.models import PlanRevision
from sites.services import add_plan_revision
from tests.sites.makers import make_plan, make_site, plan_document


def document_with(part, pipes=None, **supply):
    document = plan_document()
    document["supply"].update(supply)
    for pipe in document["layout"]["pipes"]:
        if pipes is None or pipe["id"] in pipes:
            pipe["part"] = part
    return document


@pytest.fixture
def wide(site, parts_book):
    """A plan with more pipe than it needs."""
    return make_plan(site, document=document_with("pvc-32"), name="Wide")


def address(plan):
    return reverse("sites:sizes", args=[plan.site_id, plan.number])


def text_of(answer):
    return re.sub(r"\s+", " ", html.unescape(answer.content.decode()))


def hidden(answer, name):
    found = re.search(rf'name="{name}" value="([^"]*)"', answer.content.decode())
    return html.unescape(found[1])


def test_who_may_look(plan, owner_client, clerk_client, installer_client, client):
    assert owner_client.get(address(plan)).status_code == 200
    assert clerk_client.get(address(plan)).status_code == 200
    assert installer_client.get(address(plan)).status_code == 403
    assert client.get(address(plan)).status_code == 302
    assert owner_client.post(address(plan)).status_code == 405
    assert owner_client.delete(address(plan)).status_code == 405


def test_a_plan_of_another_site_and_one_that_is_not_are_404(plan, customer, owner_client):
    other = make_site(customer, name="Other")
    assert owner_client.get(reverse("sites:sizes", args=[other.pk, 1])).status_code == 404
    assert owner_client.get(reverse("sites:sizes", args=[plan.site_id, 7])).status_code == 404


def test_the_plan_leads_there(plan, owner_client):
    page = owner_client.get(reverse("sites:plan", args=[plan.site_id, 1]))
    assert f'href="{address(plan)}">Find cheaper pipe sizes' in page.content.decode()


def test_the_offer_shows_cost_before_and_after_and_the_gap_and_changes_nothing(wide, owner_client):
    answer = owner_client.get(address(wide))
    text = text_of(answer)
    assert "What it saves" in text
    assert "pvc-32</td><td>pvc-25" in text
    assert "gap 0.0 %" in text
    assert "Proven" in text
    assert text.count("Worst head") == 2
    assert PlanRevision.objects.count() == 1
    wide.refresh_from_db()
    assert {pipe["part"] for pipe in wide.document["layout"]["pipes"]} == {"pvc-32"}


def test_taking_it_over_saves_the_next_revision(wide, owner_client):
    answer = owner_client.get(address(wide))
    posted = {name: hidden(answer, name) for name in ("began_from", "name", "document")}
    saved = owner_client.post(reverse("sites:plan-save", args=[wide.site_id]), posted)
    second = PlanRevision.objects.get(number=2)
    assert saved["Location"] == reverse("sites:plan", args=[wide.site_id, 2])
    assert (second.name, second.began_from) == ("Wide", wide)
    assert {pipe["part"] for pipe in second.document["layout"]["pipes"]} == {"pvc-25"}
    assert second.document["ground"] == wide.document["ground"]


def test_taking_it_over_after_somebody_saved_is_a_clash_and_loses_nothing(wide, owner_client):
    answer = owner_client.get(address(wide))
    posted = {name: hidden(answer, name) for name in ("began_from", "name", "document")}
    theirs = document_with("pvc-32", static_kpa=455)
    add_plan_revision(site=wide.site, document=theirs, began_from=1, by=None)
    clash = owner_client.post(reverse("sites:plan-save", args=[wide.site_id]), posted)
    assert clash.status_code == 409
    assert "Somebody else saved this plan too" in text_of(clash)
    assert PlanRevision.objects.get(number=2).document["supply"]["static_kpa"] == 455
    assert PlanRevision.objects.count() == 2


def test_an_older_revision_offers_nothing_to_take_over(wide, owner_client):
    theirs = document_with("pvc-32", static_kpa=455)
    add_plan_revision(site=wide.site, document=theirs, began_from=1, by=None)
    text = text_of(owner_client.get(address(wide)))
    assert "This is an older revision." in text
    assert "Take these sizes over" not in text


def test_what_costs_least_already_says_so(plan, owner_client):
    text = text_of(owner_client.get(address(plan)))
    assert "Nothing to change." in text
    assert "Take these sizes over" not in text


def test_pipes_to_stay_are_left_and_named(wide, owner_client):
    text = text_of(owner_client.get(address(wide), {"keep": "M1, M2 M3"}))
    assert "3 pipes left as drawn" in text
    assert "M1 (pvc-32): it is to stay as it is." in text


@pytest.mark.parametrize("keep", ["XX M1", "<b>", "M1\x00", "é" * 30, "M" * 5000])
def test_a_name_that_is_no_pipe_is_refused_beside_the_field(wide, owner_client, keep):
    answer = owner_client.get(address(wide), {"keep": keep})
    assert answer.status_code == 422
    assert 'class="errorlist"' in answer.content.decode()
    assert "<b>" not in answer.content.decode()
    assert "What it saves" not in text_of(answer)


def test_what_was_typed_stays(wide, owner_client):
    text = text_of(owner_client.get(address(wide), {"keep": "XX M1"}))
    assert 'value="XX M1"' in text
    assert "This plan has no pipe XX." in text


def test_a_head_that_cannot_be_served_is_named_with_what_it_lacks(site, parts_book, owner_client):
    weak = [{"kind": "gauge", "flow_lpm": 40, "residual_kpa": 250}]
    plan = make_plan(site, document=document_with("pvc-25", static_kpa=360, tests=weak))
    text = text_of(owner_client.get(address(plan)))
    assert "No pipe sizes will do." in text
    assert re.search(
        r"Head \w+ gets [\d.]+ kPa in case “[^”]+” and should have 250.0 kPa: [\d.]+ kPa too little", text
    )
    assert "Take these sizes over" not in text


def test_a_plan_that_cannot_be_sized_says_why(site, parts_book, owner_client):
    bare = {"format": "plan/1", "supply": {"at": [0, 0], "static_kpa": 400}}
    answer = owner_client.get(address(make_plan(site, document=bare)))
    assert answer.status_code == 200
    assert "There is nothing to size yet" in text_of(answer)


def test_without_any_price_it_says_so(plan, owner_client, monkeypatch):
    monkeypatch.setattr(sizing_services, "metre_prices", lambda parts, on: {})
    assert "No pipe is left to size: there is no price for pvc-25." in text_of(
        owner_client.get(address(plan))
    )


def test_time_that_runs_out_is_admitted(wide, owner_client, monkeypatch):
    monkeypatch.setattr(sizing_services, "SECONDS", 1e-9)
    text = text_of(owner_client.get(address(wide)))
    assert "Not proven: time ran out" in text or "Not settled" in text
    assert "Proven:" not in text


def test_us_units_on_a_us_site(us_site, parts_book, owner_client):
    plan = make_plan(us_site, document=document_with("pvc-32"))
    text = text_of(owner_client.get(address(plan)))
    assert " psi of " in text
    assert " bar of " not in text
