"""Throwing a draft away: only the one that was looked at, and only one's own."""

import json

from sites.drafts import save_draft
from sites.models import PlanDraft
from tests.sites.makers import plan_document


def discard(client, site, version):
    return client.post(
        f"/sites/{site.pk}/board/discard/", json.dumps({"draft_version": version}), "application/json"
    )


def kept(site, person, version=0):
    return save_draft(
        site=site, person=person, document=plan_document(), began_from=1, draft_version=version, name="x"
    )


def test_the_draft_goes_and_the_revision_stays(clerk_client, clerk, plan, site):
    draft = kept(site, clerk)
    answer = discard(clerk_client, site, draft.version)
    assert answer.json() == {"url": f"/sites/{site.pk}/board/"}
    assert not PlanDraft.objects.exists()
    assert site.plans.get() == plan


def test_a_draft_that_went_on_in_another_window_is_not_thrown_away_unseen(clerk_client, clerk, plan, site):
    version = kept(site, clerk).version
    newer = kept(site, clerk, version)
    answer = discard(clerk_client, site, version)
    assert answer.status_code == 409
    assert answer.json()["draft_version"] == newer.version
    assert PlanDraft.objects.count() == 1


def test_nobody_throws_away_the_draft_of_another(clerk_client, owner, plan, site):
    draft = kept(site, owner)
    assert discard(clerk_client, site, draft.version).status_code == 200
    assert PlanDraft.objects.get() == draft


def test_nonsense_is_told_so(clerk_client, site):
    assert discard(clerk_client, site, "x").status_code == 422
    assert discard(clerk_client, site, -1).status_code == 422


def test_nothing_is_saved_kept_or_thrown_away_under_another_name(clerk_client, clerk, owner, plan, site):
    """The page was opened by the owner; since then the clerk has logged in in the same browser."""
    body = {"document": plan_document(), "began_from": 1, "draft_version": 0, "name": "x", "person": owner.pk}
    for name in ("draft", "keep", "discard"):
        url = f"/sites/{site.pk}/board/{name}/"
        answer = clerk_client.post(url, json.dumps(body), "application/json")
        assert answer.status_code == 401, name
        assert "Log in as yourself" in answer.json()["detail"]
    assert not PlanDraft.objects.exists()
    assert site.plans.get() == plan
    own = {**body, "person": clerk.pk}
    url = f"/sites/{site.pk}/board/draft/"
    assert clerk_client.post(url, json.dumps(own), "application/json").status_code == 200
