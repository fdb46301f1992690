"""What a person draws is kept as it is typed, for that person, and no window overwrites another."""

import pytest

from design.survey.document import PlaneSurvey
from design.survey.ground import sides_of
from sites.drafts import drawing_for, drop_draft, put_ground, save_draft
from sites.errors import DraftClash, PlanRefused
from sites.models import PlanDraft
from tests.sites.makers import make_plan, plan_document

UNFINISHED = {"format": "plan/1", "ground": {"areas": [{"id": "A1", "outline": [[0, 0], [1, 0]]}]}}


def draw(site, person, document=UNFINISHED, **fields):
    given = {"began_from": 0, "draft_version": 0, "name": "", **fields}
    return save_draft(site=site, person=person, document=document, **given)


def test_with_nothing_there_the_board_begins_without_a_supply(site, clerk):
    drawing = drawing_for(site=site, person=clerk)
    assert (drawing.began_from, drawing.draft_version, drawing.saved_at) == (0, 0, None)
    assert "supply" not in drawing.document
    assert drawing.document["layout"]["nodes"] == []


def test_the_newest_visit_gives_the_supply(site, clerk):
    from sites.models import Visit

    Visit.objects.create(site=site, visited_on="2026-05-04", static_kpa=310)
    Visit.objects.create(site=site, visited_on="2026-05-05", static_kpa=420)
    assert drawing_for(site=site, person=clerk).document["supply"]["static_kpa"] == 420


def test_a_revision_comes_before_a_visit_and_a_draft_before_both(plan, site, clerk, owner):
    assert drawing_for(site=site, person=clerk).began_from == 1
    draft = draw(site, clerk, began_from=1, name="mine")
    mine = drawing_for(site=site, person=clerk)
    assert (mine.document, mine.name, mine.draft_version) == (UNFINISHED, "mine", draft.version)
    assert drawing_for(site=site, person=owner).draft_version == 0


def test_each_save_names_the_version_that_it_began_from(site, clerk):
    first = draw(site, clerk)
    second = draw(site, clerk, {**UNFINISHED, "ground": {}}, draft_version=first.version)
    assert second.version == first.version + 1
    with pytest.raises(DraftClash) as clash:
        draw(site, clerk, draft_version=first.version)
    assert clash.value.current.document["ground"] == {}
    with pytest.raises(DraftClash):
        draw(site, clerk)


def test_a_draft_dropped_elsewhere_is_begun_again_with_a_version_of_its_own(site, clerk):
    first = draw(site, clerk)
    drop_draft(site=site, person=clerk)
    again = draw(site, clerk, draft_version=first.version)
    assert again.version > first.version
    assert PlanDraft.objects.count() == 1


@pytest.mark.parametrize(
    "document",
    [
        "[]", "x", {"ground": []}, {"layout": {"nodes": [1]}}, {"format": "plan/9"},
        {"ground": {"areas": [{"id": "A\x00"}]}}, {"ground": {"areas": [{"\x00": 1}]}},
        {"layout": {"notes": [{"text": "\ud800"}]}}, '{"supply": {"z_m": 1e999}}',
        {"layout": {"notes": [{"text": "x" * 1_000_001}]}}, {"ground": {"levels": [{}] * 301}},
        '{"a":' * 5000, "{" + '"a":{' * 40 + "}" * 41,
    ],
)  # fmt: skip
def test_what_cannot_be_kept_is_refused_with_a_sentence(site, clerk, document):
    with pytest.raises(PlanRefused) as refusal:
        draw(site, clerk, document)
    assert refusal.value.problems[0].sentence.endswith((".", "braces."))
    assert not PlanDraft.objects.exists()


def test_ground_replaces_what_has_its_id_in_place_and_keeps_all_else(plan, site, clerk):
    before = plan_document()
    area = before["ground"]["areas"][0]
    moved = {**area, "outline": [[0, 0], [5, 0], [5, 5]]}
    mark = {"id": "M-new", "at": [1, 2]}
    draft = put_ground(site=site, person=clerk, ground={"areas": [moved], "marks": [mark]})
    ground = draft.document["ground"]
    assert ground["areas"][0] == moved
    assert len(ground["areas"]) == len(before["ground"]["areas"])
    assert ground["marks"][-1] == mark
    assert draft.document["layout"] == plan.document["layout"]
    assert draft.began_from == 1
    again = put_ground(site=site, person=clerk, ground={"marks": [{**mark, "at": [2, 2]}]})
    assert [row for row in again.document["ground"]["marks"] if row["id"] == "M-new"] == [
        {"id": "M-new", "at": [2, 2]}
    ]
    assert again.version == draft.version + 1


def test_ground_that_is_none_is_refused(plan, site, clerk):
    for ground in ({"nodes": []}, {"areas": {}}, {"areas": [3]}):
        with pytest.raises(PlanRefused):
            put_ground(site=site, person=clerk, ground=ground)


def test_the_address_keeps_a_draft_and_tells_a_clash(send, site, clerk):
    body = {"document": UNFINISHED, "began_from": 0, "draft_version": 0, "name": "First"}
    first = send("draft", body)
    assert first.status_code == 200
    version = first.json()["draft_version"]
    assert first.json()["saved_at"]
    assert drawing_for(site=site, person=clerk).name == "First"
    clash = send("draft", body)
    assert clash.status_code == 409
    assert clash.json()["document"] == UNFINISHED
    assert clash.json()["draft_version"] == version
    assert send("draft", {**body, "draft_version": version}).json()["draft_version"] == version + 1


def test_two_sites_drafts_do_not_meet(site, us_site, clerk):
    draw(site, clerk)
    make_plan(us_site)
    assert drawing_for(site=us_site, person=clerk).began_from == 1


def test_what_the_board_said_of_measured_ground_stays_when_it_is_put_there_again(plan, site, clerk):
    """The survey gives an outline and no soil; the board's soil and name stay, the outline is the new one."""
    lawn = {"id": "turf-1", "label": "", "cover": "turf", "outline": [[0, 0], [4, 0], [4, 4]]}
    put_ground(site=site, person=clerk, ground={"areas": [lawn]})
    drawing = drawing_for(site=site, person=clerk)
    area = drawing.document["ground"]["areas"][-1]
    area |= {"soil": "clay", "label": "Front"}
    draw(site, clerk, drawing.document, began_from=1, draft_version=drawing.draft_version)
    again = put_ground(
        site=site, person=clerk, ground={"areas": [{**lawn, "outline": [[0, 0], [5, 0], [4, 4]]}]}
    )
    assert again.document["ground"]["areas"][-1] == {
        "id": "turf-1", "label": "Front", "cover": "turf", "outline": [[0, 0], [5, 0], [4, 4]], "soil": "clay"
    }  # fmt: skip


def test_no_side_of_a_fence_is_left_behind_when_it_has_fewer(plan, site, clerk):
    survey = PlaneSurvey.model_validate(
        {"outlines": [{"id": "fence-1", "becomes": "boundary", "kind": "fence", "points": ["1", "2"]}]}
    )
    sides = [{"id": f"fence-1-{n}", "outline": [[n, 0], [n + 1, 0], [n, 1]]} for n in (1, 2, 3)]
    others = [{**sides[0], "id": name} for name in ("fence-1", "fence-2-1", "fence-1-b")]
    put_ground(site=site, person=clerk, ground={"surfaces": [*sides, *others]})
    draft = put_ground(site=site, person=clerk, ground={"surfaces": sides[:2]}, outdated=sides_of(survey))
    left = [row["id"] for row in draft.document["ground"]["surfaces"]][-5:]
    assert left == ["fence-1-1", "fence-1-2", "fence-1", "fence-2-1", "fence-1-b"]


def test_a_version_at_the_end_of_counting_leaves_a_draft_that_can_be_saved_again(send, site, clerk):
    body = {"document": UNFINISHED, "began_from": 0, "draft_version": 2_147_483_647, "name": ""}
    version = send("draft", body).json()["draft_version"]
    assert send("draft", {**body, "draft_version": version}).status_code == 200
