"""The page's data, the answer of the check, what it says an edit moved, and who may ask."""

import copy
import json

import pytest
import shapely

from sites.board_check import check_drawing
from sites.drafts import save_draft
from sites.survey_services import save_survey
from tests.conftest import client_of
from tests.sites.makers import make_plan, make_visit, plan_document

NAMES = ("check", "draft", "keep", "discard", "wetting", "place", "measure")


def data_of(answer):
    text = answer.content.decode()
    begin = text.index('id="board-data"')
    return json.loads(text[text.index(">", begin) + 1 : text.index("</script>", begin)])


def test_the_page_carries_the_newest_revision_and_asks_for_its_check_later(clerk_client, clerk, plan, site):
    answer = clerk_client.get(f"/sites/{site.pk}/board/")
    data = data_of(answer)
    assert data["document"] == plan.document
    assert (data["began_from"], data["draft_version"], data["frozen"]) == (1, 0, "")
    assert data["site"] == {"id": site.pk, "name": "House", "customer": "Mara Teal", "units": "metric"}
    assert data["person"] == clerk.pk  # one browser, two people: each has a kept drawing of their own
    assert data["report"] is None
    assert data["urls"]["plan"].endswith("/plans/1/")
    heads = {part["arc"] for part in data["parts"]["head"]}
    assert heads == {"fixed", "full", "by_bearing", "drip"}
    assert all(data["parts"][kind] for kind in ("valve", "pipe", "cable", "controller", "sleeve", "meter"))
    assert ["future_work", "future work"] in data["choices"]["surface"]


def test_the_page_opens_with_nothing_and_with_a_draft(clerk_client, clerk, site):
    assert data_of(clerk_client.get(f"/sites/{site.pk}/board/"))["document"]["layout"]["nodes"] == []
    document = {"format": "plan/1", "layout": {"notes": [{"id": "N1", "text": "</script><b>"}]}}
    save_draft(site=site, person=clerk, document=document, began_from=0, draft_version=0, name="x")
    data = data_of(clerk_client.get(f"/sites/{site.pk}/board/"))
    assert data["document"] == document
    assert data["saved_at"]


def test_a_photo_with_a_place_is_on_the_page(clerk_client, site):
    from sites.models import Picture, SitePhoto, Visit

    visit = Visit.objects.create(site=site, visited_on="2026-05-04")
    pictures = [
        Picture.objects.create(site=site, data=b"x", small=b"x", media_type="image/jpeg", width=1, height=1)
        for _ in range(2)
    ]
    SitePhoto.objects.create(
        visit=visit, picture=pictures[0], caption="Tap", east_m=1, north_m=2, looks_deg=90
    )
    SitePhoto.objects.create(visit=visit, picture=pictures[1])
    photos = data_of(clerk_client.get(f"/sites/{site.pk}/board/"))["photos"]
    assert [(photo["at"], photo["caption"], photo["looks_deg"]) for photo in photos] == [
        ([1.0, 2.0], "Tap", 90)
    ]
    assert photos[0]["url"] == f"/pictures/{pictures[0].pk}/"
    assert photos[0]["small_url"] == f"/pictures/{pictures[0].pk}/small/"


def test_the_check_of_a_whole_plan(send, plan):
    found = send("check", {"document": plan.document, "before": None}).json()
    assert found["valid"] is True
    assert found["problems"] == []
    assert found["moved"] is None
    assert found["server_ms"] >= 0
    nodes = plan.document["layout"]["nodes"]
    heads = {node["id"] for node in nodes if node["kind"] == "head"}
    assert set(found["heads"]) == heads
    one = found["heads"]["A1"]
    assert one["pressure"].endswith(" bar")
    assert one["flow"].endswith(" L/min")
    assert one["pattern"][0] == next(node["at"] for node in nodes if node["id"] == "A1")
    assert set(found["pipes"]) == {pipe["id"] for pipe in plan.document["layout"]["pipes"]}
    assert {row["label"] for row in found["sums"]} >= {
        "Heads",
        "Zones",
        "Pipe",
        "Trench by machine",
        "Area watered",
    }
    keys = [finding["key"] for finding in found["findings"]]
    assert len(keys) == len(set(keys))
    assert found["supply"]["sentence"].endswith(" at the most.")


def test_the_sector_reaches_as_far_as_the_solved_throw(send, plan):
    found = send("check", {"document": plan.document}).json()
    head = found["heads"]["A1"]
    (x, y), *rim = head["pattern"]
    assert all(abs(((a - x) ** 2 + (b - y) ** 2) ** 0.5 - head["reach_m"]) < 0.002 for a, b in rim)


def test_a_us_site_reads_us_units(us_site):
    found = check_drawing(us_site, plan_document())
    text = json.dumps(found, ensure_ascii=False)
    assert found["heads"]["A1"]["pressure"].endswith(" psi")
    assert found["heads"]["A1"]["flow"].endswith(" US gal/min")
    assert " L/min" not in text
    assert " kPa" not in text


def test_an_incomplete_plan_is_answered_with_what_is_left_out(send, plan):
    document = copy.deepcopy(plan.document)
    document["layout"]["nodes"].append({"id": "H99", "kind": "head", "at": [1, 1]})
    found = send("check", {"document": document}).json()
    assert found["valid"] is False
    assert [problem["entity"] for problem in found["problems"]] == ["H99"]
    assert "A1" in found["heads"]


def test_moving_a_head_s_pipe_says_what_changed(send, plan):
    before = send("check", {"document": plan.document}).json()["figures"]
    same = send("check", {"document": plan.document, "before": before}).json()["moved"]
    assert same == {"sentences": [], "findings_new": [], "findings_gone": [], "heads": []}
    document = copy.deepcopy(plan.document)
    document["supply"]["tests"][0]["residual_kpa"] = 180
    moved = send("check", {"document": document, "before": before}).json()["moved"]
    assert moved["heads"]
    assert all("→" in line for line in moved["sentences"][:8])
    assert moved["findings_new"]
    back = send(
        "check",
        {"document": plan.document, "before": send("check", {"document": document}).json()["figures"]},
    )
    assert back.json()["moved"]["findings_gone"]


@pytest.mark.parametrize(
    "before",
    [
        3, "x", [], {"heads": []}, {"heads": {"H1": None}}, {"heads": {"H1": [1, "a"]}},
        {"heads": {"H1": [1e400, 2]}}, {"heads": {"H1": [10**400, 1]}}, {"findings": {"a": [1, 2]}},
        {"findings": {"a": "xx"}}, {"heads": {"H1": [True, False]}}, {"findings": {"k" * 9000: ["a", "b"]}},
    ],
)  # fmt: skip
def test_a_before_of_another_shape_is_passed_over(send, plan, before):
    answer = send(
        "check", json.dumps({"document": plan.document, "before": before}).replace("Infinity", "1e400")
    )
    assert answer.status_code == 200
    assert not (answer.json()["moved"] or {"sentences": []})["sentences"]


GARBAGE = [
    ("", 422), ("[]", 422), ("{", 422), ("{}", 422), ('{"document": 3}', 422), (b"\xff\xfe", 422),
    ('{"document": {"ground": []}}', 422), ('{"document": {"layout": {"nodes": {}}}}', 422),
    ('{"document": {"ground": {"areas": [{"id": "\\u0000"}]}}}', 422),
    ('{"document": {"ground": {"areas": [{"id": "\\ud800"}]}}}', 422),
    ('{"document": {"supply": {"z_m": 1e999}}}', 422), ('{"document": {"supply": NaN}}', 422),
    ('{"a":' * 20_000, 422), ('{"document": ' + "9" * 5000 + "}", 422),
    ('{"document": {"notes": "' + "x" * 1_000_000 + '"}}', 413), ("x" * 3_000_000, 413),
]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("body", "status"), GARBAGE, ids=range(len(GARBAGE)))
def test_what_is_no_document_is_refused_with_a_sentence(send, name, body, status):
    answer = send(name, body)
    assert answer.status_code == status
    assert answer.json()["detail"]


@pytest.mark.parametrize("name", NAMES)
def test_who_may_ask_and_how(client, installer, clerk_client, site, name):
    url = f"/sites/{site.pk}/board/{name}/"
    assert clerk_client.get(url).status_code == 405
    assert client.post(url, "{}", content_type="application/json").status_code == 302
    assert client_of(installer).post(url, "{}", content_type="application/json").status_code == 403
    assert (
        clerk_client.post(
            "/sites/999/board/check/", '{"document": {}}', content_type="application/json"
        ).status_code
        == 404
    )


def test_the_page_is_for_the_office(client, installer, clerk_client, site):
    url = f"/sites/{site.pk}/board/"
    assert client.get(url).status_code == 302
    assert client_of(installer).get(url).status_code == 403
    assert clerk_client.post(url).status_code == 405
    assert clerk_client.get("/sites/999/board/").status_code == 404


def test_every_demo_plan_is_answered(site):
    for name in ("s1", "s2", "s3"):
        make_plan(site, document=plan_document(name), began_from=site.plans.count())
        assert check_drawing(site, plan_document(name))["valid"]


def test_a_head_that_throws_by_bearing_is_drawn_as_far_as_it_sees_its_lawn(site):
    """Site S2 by hand: the farthest corner that H1 can see lies 10.00 m away."""
    document = plan_document("s2")
    head = check_drawing(site, document)["heads"]["H1"]
    lawn = shapely.Polygon(document["ground"]["areas"][0]["outline"])
    pattern = shapely.Polygon(head["pattern"])
    assert lawn.buffer(0.01).covers(pattern)
    x, y = next(node["at"] for node in document["layout"]["nodes"] if node["id"] == "H1")
    farthest = max(((a - x) ** 2 + (b - y) ** 2) ** 0.5 for a, b in head["pattern"])
    assert farthest == pytest.approx(min(10.0, head["reach_m"]), abs=0.02)


def test_unsure_points_of_the_measured_ground_are_on_the_page(clerk_client, site):
    """Two tapes that meet under 28.3°, below the usual 30°: common practice, no source."""
    visit = make_visit(site)
    tapes = {"first_tape": {"text": "5.00", "m": 5.0}, "second_tape": {"text": "20.22", "m": 20.22}}
    document = {
        "marks": [
            {"name": "A", "east": {"text": "4", "m": 4}, "north": {"text": "15", "m": 15}},
            {"name": "B", "off": "A", "distance": {"text": "16", "m": 16}},
        ],
        "ties": [{"point": "4", "first": "A", "second": "B", "side": "right", **tapes}],
    }
    save_survey(visit=visit, part="plane", document=document, began_from=0, by=None)
    (weak,) = data_of(clerk_client.get(f"/sites/{site.pk}/board/"))["weak_points"]
    assert weak["id"] == "4"
    assert weak["at"] == pytest.approx([0, 12], abs=0.05)
