"""The page of a visit's heights: rows, what follows, who may, clashes, the drawing board."""

import pytest
from django.urls import reverse

from sites.models import GroundSurvey, PlanDraft, Visit
from sites.survey_services import save_survey
from tests.sites.makers import make_visit, visit_post

COUNTS = {"spots": 2, "falls": 2, "sights": 3}
BOOK = {
    "spots-0-point": "A", "spots-0-height": "0",
    "falls-0-first": "A", "falls-0-second": "B", "falls-0-fall": "0.5",
    "falls-1-first": "B", "falls-1-second": "C", "falls-1-fall": "2 %",
    "sights-0-stand": "1", "sights-0-point": "A", "sights-0-reading": "1.20",
    "sights-1-stand": "1", "sights-1-point": "D", "sights-1-reading": "3 ft 4 in",
}  # fmt: skip
MARKS = [("A", 0, 0), ("B", 20, 0), ("C", 20, 10), ("D", 0, 10)]


def length(m):
    return {"text": f"{m} m", "m": m}


def post(began_from=0, counts=COUNTS, **fields):
    data = {"began_from": began_from, **{f"{k}-TOTAL_FORMS": n for k, n in counts.items()}}
    return {**data, **{f"{k}-INITIAL_FORMS": 0 for k in counts}, **fields}


@pytest.fixture
def visit(site, clerk, clerk_client):
    clerk_client.post(reverse("sites:visit-add", args=[site.pk]), visit_post())
    return Visit.objects.get()


@pytest.fixture
def placed(visit):
    """The four points measured, A to D, around an area."""
    marks = [{"name": n, "east": length(x), "north": length(y)} for n, x, y in MARKS]
    outline = {"id": "lawn", "label": "Front lawn", "becomes": "area", "kind": "turf", "points": list("ABCD")}
    return save_survey(
        visit=visit, part="plane", document={"marks": marks, "outlines": [outline]}, began_from=0, by=None
    )


@pytest.fixture
def address(visit):
    return reverse("sites:levels", args=[visit.pk])


def test_rows_are_kept_as_typed_beside_si(address, placed, clerk_client):
    assert clerk_client.post(address, post(placed.version, **BOOK)).status_code == 302
    kept = GroundSurvey.objects.get().levels
    assert kept["spots"] == [{"point": "A", "height": {"text": "0 m", "m": 0}}]
    assert kept["falls"][1] == {"first": "B", "second": "C", "fall_pct": 2, "fall_text": "2 %"}
    (setup,) = kept["setups"]
    assert (setup["known"], setup["known_reading"]["m"]) == ("A", 1.2)
    # NIST SP 811 appendix B: 1 ft = 0.3048 m; 3 ft 4 in = 1.016 m
    assert setup["sights"] == [{"point": "D", "reading": {"text": "3 ft 4 in", "m": pytest.approx(1.016)}}]


def test_the_page_shows_the_heights_and_the_lie_of_the_ground(address, placed, clerk_client):
    clerk_client.post(address, post(placed.version, **BOOK))
    page = clerk_client.get(address).content.decode()
    # by hand: B 0.50 m down; C 2 % of 10 m farther; D 1.20 − 1.016 m up
    for text in ("-0.50 m", "-0.70 m", "0.18 m", "Front lawn", "Low edge", "<svg", 'value="2 %"'):
        assert text in page
    assert "± 0.0" in page


def test_working_out_keeps_nothing(address, placed, clerk_client):
    answer = clerk_client.post(address, post(placed.version, work_out=1, **BOOK))
    assert answer.status_code == 200
    assert "-0.70 m" in answer.content.decode()
    assert GroundSurvey.objects.get().levels == {}


def test_another_row_keeps_what_is_typed(address, visit, clerk_client):
    page = clerk_client.post(address, post(add="falls", **BOOK)).content.decode()
    assert 'name="falls-2-fall"' in page
    assert 'value="2 %"' in page


def test_a_point_without_a_place_is_named_beside_its_row(address, visit, clerk_client):
    page = clerk_client.post(address, post(**BOOK), follow=True).content.decode()
    assert "B has no place yet, so per cent give no height" in page
    assert "Without a place on the measured ground, so not drawn: A, B, D." in page


def test_a_contradiction_is_said(address, placed, clerk_client):
    wrong = {**BOOK, "falls-1-first": "D", "falls-1-second": "B", "falls-1-fall": "1.5"}
    page = clerk_client.post(address, post(placed.version, **wrong), follow=True).content.decode()
    assert "does not fit" in page
    assert "0.82 m" in page  # by hand: 0.184 − 1.5 instead of −0.5


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        ("spots-0-height", "soon", "not a number"),
        ("spots-0-height", "600 m", "within 500 m"),
        ("spots-0-height", "", "This is missing"),
        ("falls-1-fall", "200 %", "at most 100 %"),
        ("falls-1-fall", "lots %", "not a number"),
        ("falls-1-first", "über", "Use letters"),
        ("sights-0-stand", "0", "greater than or equal to 1"),
        ("sights-1-stand", "", "This is missing"),
    ],
)
def test_what_cannot_be_is_refused_beside_it_and_all_stays_typed(address, clerk_client, field, typed, says):
    answer = clerk_client.post(address, post(**{**BOOK, field: typed}))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    assert f'href="#id_{field}"' in page
    for kept in ("3 ft 4 in", "1.20"):
        assert kept in page
    assert not GroundSurvey.objects.exists()


@pytest.mark.parametrize(
    "value", ["\x00", "x" * 60_000, "9" * 5000, "NaN", "1e400", "-1", "<b>", "\u202e💧", "%"]
)
def test_hostile_rows_never_break_it(address, clerk_client, value):
    for name in [*BOOK, "began_from", "spots-TOTAL_FORMS", "add"]:
        assert clerk_client.post(address, post(**{**BOOK, name: value})).status_code < 500


def test_a_clash_shows_both_and_loses_nothing(address, placed, clerk_client):
    clerk_client.post(address, post(placed.version, **BOOK))
    answer = clerk_client.post(address, post(placed.version, **{**BOOK, "falls-0-fall": "0.9"}))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "0.5 m" in page
    assert 'value="0.9"' in page
    newest = GroundSurvey.objects.get().version
    assert f'name="began_from" value="{newest}"' in page
    assert clerk_client.post(address, post(newest, **{**BOOK, "falls-0-fall": "0.9"})).status_code == 302


def test_a_clash_with_more_rows_than_theirs(address, placed, clerk_client):
    clerk_client.post(address, post(placed.version, **{"spots-0-point": "A", "spots-0-height": "1"}))
    assert clerk_client.post(address, post(placed.version, **BOOK)).status_code == 409


def test_levels_go_onto_the_drawing_board(address, visit, placed, clerk, clerk_client):
    clerk_client.post(address, post(placed.version, **BOOK))
    board = reverse("sites:levels-board", args=[visit.pk])
    assert clerk_client.post(board).status_code == 302
    clerk_client.post(board)  # again: the same points are replaced
    levels = PlanDraft.objects.get(person=clerk).document["ground"]["levels"]
    assert sorted((one["id"], one["at"], one["z_m"]) for one in levels) == [
        ("level-A", [0, 0], 0), ("level-B", [20, 0], -0.5), ("level-C", [20, 10], -0.7),
        ("level-D", [0, 10], 0.184),
    ]  # fmt: skip


def test_without_a_place_nothing_goes_onto_the_board(address, visit, clerk_client):
    clerk_client.post(address, post(**BOOK))
    answer = clerk_client.post(reverse("sites:levels-board", args=[visit.pk]))
    assert answer.status_code == 422
    assert "nothing to put on the board" in answer.content.decode()
    assert not PlanDraft.objects.exists()


def test_who_may(visit, owner_client, clerk_client, installer_client, client):
    for name in ("levels", "levels-board"):
        address = reverse(f"sites:{name}", args=[visit.pk])
        assert installer_client.get(address).status_code in (403, 405)
        assert installer_client.post(address).status_code == 403
        assert client.post(address).status_code == 302
        assert owner_client.put(address).status_code == 405
        assert owner_client.post(reverse(f"sites:{name}", args=[9999])).status_code == 404
    assert owner_client.get(reverse("sites:levels", args=[visit.pk])).status_code == 200
    assert owner_client.get(reverse("sites:levels-board", args=[visit.pk])).status_code == 405


def test_a_plan_lends_its_marks_and_areas_where_nothing_was_measured(address, site, parts_book, clerk_client):
    from tests.sites.makers import make_plan, plan_document

    document = plan_document()
    document["ground"]["marks"] = [{"id": n, "at": [x, y]} for n, x, y in MARKS]
    make_plan(site, document=document)
    page = clerk_client.post(address, post(work_out=1, **BOOK)).content.decode()
    assert '<option value="C">' in page
    assert document["ground"]["areas"][0].get("label", document["ground"]["areas"][0]["id"]) in page


def test_in_us_units_the_limit_is_in_feet_too(us_site, clerk_client):
    """500 m are 1640.4 ft, by 0.3048 m a foot (NIST SP 811, appendix B.8)."""
    address = reverse("sites:levels", args=[make_visit(us_site).pk])
    answer = clerk_client.post(address, post(**{**BOOK, "spots-0-height": "2000"}))
    assert answer.status_code == 422
    assert "within 1640.4 ft" in answer.content.decode()


def test_one_height_goes_onto_the_board_alone(visit, placed, address, clerk_client):
    clerk_client.post(address, post(began_from=1, **{"spots-0-point": "A", "spots-0-height": "1 m"}))
    page = clerk_client.post(reverse("sites:levels-board", args=[visit.pk]), follow=True).content.decode()
    assert "1 height is on your drawing board." in page
