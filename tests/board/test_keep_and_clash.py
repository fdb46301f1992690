"""Keeping a drawing as the next revision; and when two kept from the same one, neither is lost."""

import copy

import pytest

from quoting.models import Quote, Status
from sites.drafts import drawing_for, save_draft
from sites.frozen import frozen_words
from sites.models import PlanDraft
from sites.plan_services import latest_revision
from tests.conftest import client_of
from tests.sites.makers import make_plan


def moved(document, name, at):
    new = copy.deepcopy(document)
    next(node for node in new["layout"]["nodes"] if node["id"] == name)["at"] = at
    return new


def noted(document, text):
    new = copy.deepcopy(document)
    new["layout"].setdefault("notes", []).append({"id": f"note-{text}", "at": [1, 1], "text": text})
    return new


def body(document, began_from=1, draft_version=0, name=""):
    return {"document": document, "began_from": began_from, "draft_version": draft_version, "name": name}


def test_keeping_makes_the_next_revision_and_drops_the_draft(send, site, plan, clerk):
    document = noted(plan.document, "mine")
    version = send("draft", body(document)).json()["draft_version"]
    answer = send("keep", body(document, draft_version=version, name="Second"))
    assert answer.status_code == 201
    assert answer.json() == {"number": 2, "url": f"/sites/{site.pk}/plans/2/"}
    newest = latest_revision(site)
    assert (newest.name, newest.made_by) == ("Second", clerk)
    assert not PlanDraft.objects.exists()


def test_an_unfinished_drawing_is_refused_with_each_problem(send, site, plan):
    document = copy.deepcopy(plan.document)
    document["layout"]["nodes"].append({"id": "H99", "kind": "head", "at": [1, 1], "part": "rotary-6"})
    answer = send("keep", body(document))
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["entity"] == "H99"
    assert latest_revision(site).number == 1


def test_another_window_s_draft_is_not_dropped_by_keeping(send, site, plan, clerk):
    save_draft(site=site, person=clerk, document=noted(plan.document, "a"), began_from=1, draft_version=0)
    answer = send("keep", body(noted(plan.document, "b"), draft_version=1))
    assert answer.status_code == 409
    assert "clash_url" not in answer.json()
    assert PlanDraft.objects.count() == 1
    assert latest_revision(site).number == 1


@pytest.fixture
def clash(send, site, plan, owner):
    """The owner kept A1 moved while the clerk moved A1 elsewhere and wrote a note."""
    theirs = noted(moved(plan.document, "A1", [0.5, 0]), "theirs")
    make_plan(site, document=theirs, began_from=1, by=owner)
    mine = noted(moved(plan.document, "A1", [0, 0.7]), "mine")
    answer = send("keep", body(mine))
    assert answer.status_code == 409
    return answer.json()


def test_a_clash_keeps_mine_as_draft_and_leads_to_both(clash, site, clerk, owner):
    assert clash["number"] == 2
    assert clash["made_by"] == str(owner)
    assert clash["clash_url"] == f"/sites/{site.pk}/board/clash/"
    assert drawing_for(site=site, person=clerk).document["layout"]["notes"][-1]["text"] == "mine"


def settle(client, site, **fields):
    draft = PlanDraft.objects.get(site=site)
    given = {"draft_version": draft.version, "newest": latest_revision(site).number, **fields}
    return client.post(f"/sites/{site.pk}/board/clash/", given)


def test_the_page_shows_both_with_metres(clash, clerk_client, site):
    page = clerk_client.get(clash["clash_url"]).content.decode()
    assert page.count("<svg") == 2
    assert "head A1: moved 0.50 m" in page
    assert "head A1: moved 0.70 m" in page
    assert "note note-theirs: added" in page
    assert "pipe" not in page[page.index("What you changed") : page.index("Take yours away")]
    assert 'name="choice.nodes.A1"' in page


def test_mine_as_the_next_revision_keeps_theirs_before_it(clash, clerk_client, site):
    answer = settle(clerk_client, site, way="mine")
    assert answer["Location"] == f"/sites/{site.pk}/plans/3/"
    assert [note["text"] for note in latest_revision(site).document["layout"]["notes"]][-1] == "mine"
    assert site.plans.get(number=2).document["layout"]["notes"][-1]["text"] == "theirs"


@pytest.mark.parametrize(("choice", "at"), [("mine", [0, 0.7]), ("theirs", [0.5, 0])])
def test_both_together_by_choice(clash, clerk_client, clerk, site, choice, at):
    answer = settle(clerk_client, site, way="both", **{"choice.nodes.A1": choice})
    assert answer["Location"] == f"/sites/{site.pk}/board/"
    drawing = drawing_for(site=site, person=clerk)
    assert drawing.began_from == 2
    assert {note["text"] for note in drawing.document["layout"]["notes"]} >= {"mine", "theirs"}
    assert next(node for node in drawing.document["layout"]["nodes"] if node["id"] == "A1")["at"] == at


def test_theirs_only_after_saying_so(clash, clerk_client, clerk, site):
    assert settle(clerk_client, site, way="theirs").status_code == 422
    assert PlanDraft.objects.exists()
    assert settle(clerk_client, site, way="theirs", sure="yes").status_code == 302
    assert drawing_for(site=site, person=clerk).began_from == 2


def test_mine_can_be_taken_away_as_a_file(clash, clerk_client, site):
    answer = clerk_client.get(f"/sites/{site.pk}/board/draft.json")
    assert answer.json() == PlanDraft.objects.get().document
    assert "attachment" in answer["Content-Disposition"]


def test_what_changed_meanwhile_is_shown_again(clash, clerk_client, site):
    assert settle(clerk_client, site, way="both", newest=1).status_code == 409
    assert settle(clerk_client, site, way="mine", draft_version="x").status_code == 409
    assert settle(clerk_client, site, way="elsewhere").status_code == 422
    assert settle(clerk_client, site, way="both", draft_version="9" * 400).status_code == 409


def test_an_unfinished_mine_cannot_be_kept_but_put_together(clerk_client, clerk, site, plan):
    make_plan(site, document=noted(plan.document, "theirs"), began_from=1)
    odd = {"layout": {"nodes": [{"id": "A1", "kind": 5, "at": "x"}],
                      "pipes": [{"id": "P", "via": 5, "from": 1}]},
           "ground": {"areas": [{"id": "Z", "holes": 7, "outline": [[10**400, 1], [0, "a"]]}]}}  # fmt: skip
    save_draft(site=site, person=clerk, document=odd, began_from=1, draft_version=0)
    page = clerk_client.get(f"/sites/{site.pk}/board/clash/")
    assert page.status_code == 200
    assert 'value="mine" class' not in page.content.decode()
    assert settle(clerk_client, site, way="mine").status_code == 422
    assert settle(clerk_client, site, way="both").status_code == 302


def test_without_a_clash_the_page_leads_to_the_board(clerk_client, site, plan):
    for url in ("clash/", "draft.json"):
        assert clerk_client.get(f"/sites/{site.pk}/board/{url}")["Location"] == f"/sites/{site.pk}/board/"


def test_who_may_see_it(client, installer, site):
    for url in ("clash/", "draft.json"):
        assert client.get(f"/sites/{site.pk}/board/{url}").status_code == 302
        assert client_of(installer).get(f"/sites/{site.pk}/board/{url}").status_code == 403


def test_a_revision_that_is_quoted_says_in_which_offer(site, plan, owner):
    assert frozen_words(plan) == ""
    quote = Quote.objects.create(site=site, plan=plan, made_by=owner)
    assert frozen_words(plan) == ""
    Quote.objects.filter(pk=quote.pk).update(
        status=Status.ISSUED, number=7, number_year=2026, issued_at="2026-05-04T00:00Z", total=1,
        valid_until="2026-06-04",
    )  # fmt: skip
    assert frozen_words(plan) == "Revision 1 is quoted in 2026-0007"


def test_the_site_and_the_plan_lead_to_the_board(clerk_client, site, plan):
    for url in (f"/sites/{site.pk}/", f"/sites/{site.pk}/plans/1/"):
        assert f"/sites/{site.pk}/board/" in clerk_client.get(url).content.decode()


def test_the_page_shows_a_mine_with_an_outline_that_is_only_begun(clerk_client, clerk, site, plan):
    make_plan(site, document=noted(plan.document, "theirs"), began_from=1, by=clerk)
    mine = copy.deepcopy(plan.document)
    mine["ground"]["areas"][0]["outline"] = mine["ground"]["areas"][0]["outline"][:2]
    save_draft(site=site, person=clerk, document=mine, began_from=1, draft_version=0)
    answer = clerk_client.get(f"/sites/{site.pk}/board/clash/")
    assert answer.status_code == 200
    assert "area" in answer.content.decode()
