"""The page of the measured ground: who may, what is kept, what is refused, and what is said beside a row."""

import pytest
from django.urls import reverse

from sites.models import GroundSurvey, PlanDraft
from tests.sites.makers import make_visit
from tests.sites.survey_posts import LAWN, LAWN_BY_TIES, MARKS, TIES, survey_post, tie


@pytest.fixture
def visit(site, parts_book):
    return make_visit(site)


@pytest.fixture
def address(visit):
    return reverse("sites:survey", args=[visit.pk])


@pytest.fixture
def live(visit):
    return reverse("sites:survey-live", args=[visit.pk])


def test_who_may(visit, address, live, owner_client, clerk_client, installer_client, client):
    for allowed in (owner_client, clerk_client):
        assert allowed.get(address).status_code == 200
        assert allowed.post(live, survey_post()).status_code == 200
    assert installer_client.get(address).status_code == 403
    assert installer_client.post(live).status_code == 403
    assert client.get(address).status_code == 302
    assert owner_client.put(address).status_code == 405
    assert owner_client.get(live).status_code == 405
    assert owner_client.get(reverse("sites:survey", args=[9999])).status_code == 404
    assert owner_client.post(reverse("sites:survey-live", args=[9999])).status_code == 404


def test_the_visit_and_the_site_lead_there(visit, address, clerk_client):
    for name, pk in (("visit", visit.pk), ("site", visit.site_id)):
        assert f'href="{address}"' in clerk_client.get(reverse(f"sites:{name}", args=[pk])).content.decode()


def test_readings_are_kept_as_typed_and_come_back(address, clerk_client, clerk):
    answer = clerk_client.post(address, survey_post(LAWN_BY_TIES))
    assert answer.status_code == 302
    kept = GroundSurvey.objects.get().plane
    assert kept["ties"][0]["first_tape"] == {"text": "15.52 m", "m": 15.52}
    assert kept["outlines"] == [
        {"id": "turf-1", "label": "Front", "becomes": "area", "kind": "turf", "points": ["1", "2", "3", "4"]}
    ]
    page = clerk_client.get(address).content.decode()
    assert 'value="15.52 m"' in page
    assert 'value="1-4"' in page
    # 24 m by 12 m; tapes were rounded to a centimetre
    assert "287.7 m²" in page
    assert "71.98 m round" in page
    # below the stored rows one more is ready, with the next name and the marks used last
    assert 'name="tie-4-point" value="5"' in page


def test_what_was_kept_can_be_saved_again_without_a_change(address, clerk_client):
    rows = {
        **LAWN_BY_TIES,
        "tape": [{"first": "1", "second": "3", "tape": "26.83"}],
        "offset": [
            {"point": "5", "start": "A", "end": "B", "chainage": "-1.5", "offset": "2", "side": "left"}
        ],
        "leg0": [{"point": "6", "length": "5", "way": "S10W"}, {"point": "7", "length": "6", "way": "L 85"}],
    }
    wheel = {"wheel-taped": "10", "wheel-shown": "10.05", "wheel-way_round": "73", "wheel-round_what": "1"}
    assert clerk_client.post(address, survey_post(rows, **wheel)).status_code == 302
    first = GroundSurvey.objects.get().plane
    page = clerk_client.get(address).context["page"]
    forms = [
        *page.every_form(),
        *(block.rows.management_form for block in [*page.blocks.values(), *page.legs]),
    ]
    again = {
        bound.html_name: bound.value()
        for form in forms
        for bound in form
        if bound.value() not in (None, False)
    }
    answer = clerk_client.post(address, {**again, "began_from": "1"})
    assert answer.status_code == 302
    assert GroundSurvey.objects.get().plane == first
    assert first["walks"][0]["legs"][1]["turn"] == {"text": "L 85", "deg": 85.0}
    assert first["walks"][0]["legs"][1]["turn_side"] == "left"
    assert first["wheel"]["round_what"] == "turf-1"


def test_both_tapes_may_be_typed_into_the_first_field(address, clerk_client):
    ties = [{**tie("1", "15.52 25.00 L", "")}, {**tie("2", "50' 11\" ; 82 ft R", "", "left")}]
    assert clerk_client.post(address, survey_post({"mark": MARKS, "tie": ties})).status_code == 302
    first, second = GroundSurvey.objects.get().plane["ties"]
    assert (first["first_tape"]["m"], first["second_tape"]["m"], first["side"]) == (15.52, 25.0, "left")
    # 50 ft 11 in and 82 ft; 1 ft = 0.3048 m exactly
    assert second["first_tape"]["m"] == pytest.approx((50 + 11 / 12) * 0.3048)
    assert (second["second_tape"]["m"], second["side"]) == (pytest.approx(82 * 0.3048), "right")


def test_us_units_read_feet_and_answer_in_feet(us_site, parts_book, clerk_client):
    address = reverse("sites:survey", args=[make_visit(us_site).pk])
    rows = {
        "mark": [{"name": "A"}, {"name": "B", "off": "A", "distance": "14"}],
        "tie": [tie("1", "13", "15")],
    }
    rows["outline"] = [{"points": "A B 1", "becomes": "area:bed"}]
    assert clerk_client.post(address, survey_post(rows)).status_code == 302
    kept = GroundSurvey.objects.get().plane
    assert kept["ties"][0]["first_tape"]["text"] == "13 ft"
    assert kept["ties"][0]["first_tape"]["m"] == pytest.approx(13 * 0.3048)
    page = clerk_client.get(address).content.decode()
    # the triangle 13, 14, 15 has an area of 84 (Heron) and is 42 round
    assert "84 ft²" in page
    assert "42 ft 0 in round" in page


def test_tapes_that_cannot_meet_are_kept_and_the_sentence_stands_at_the_row(address, clerk_client):
    rows = {"mark": MARKS, "tie": [*TIES, tie("5", "2", "3")], "outline": [LAWN]}
    assert clerk_client.post(address, survey_post(rows)).status_code == 302
    assert len(GroundSurvey.objects.get().plane["ties"]) == 5
    page = clerk_client.get(address)
    text = page.content.decode()
    note = text.split('id="note-tie-4"')[1].split("</div>")[0]
    assert "11.00 m shorter than the 16.00 m between the marks" in note
    assert "287.7 m²" in text  # the others stand


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("50.9", "15.51 m"), ("155.2", "15.52 m"), ("1.552", "15.52 m")],
)
def test_a_slip_is_kept_and_asked_about_until_somebody_says_that_it_is_right(
    address, clerk_client, typed, meant
):
    rows = {**LAWN_BY_TIES, "tie": [tie("1", typed, "25.00"), *TIES[1:]]}
    answer = clerk_client.post(address, survey_post(rows), follow=True)
    page = answer.content.decode()
    assert "do not fit the others" in page
    assert f"it would be {meant}, which does." in page
    assert f"Yes, this is right: {typed} m" in page
    token = page.split('name="confirm" value="')[1].split('"')[0]
    # it goes to the drawing board only once the question is answered, and is kept meanwhile
    refused = clerk_client.post(address, survey_post(rows, put="1", began_from="1"))
    assert refused.status_code == 422
    assert "Kept, but not on the drawing board yet" in refused.content.decode()
    assert not PlanDraft.objects.exists()
    assert (
        clerk_client.post(address, survey_post(rows, put="1", began_from="2", confirm=token)).status_code
        == 302
    )
    assert PlanDraft.objects.exists()
    assert GroundSurvey.objects.get().plane["confirmed"] == [token]
    assert "checked" in clerk_client.get(address).content.decode().split('name="confirm"')[1].split(">")[0]


def test_a_decimal_slip_in_a_closed_walk_is_asked_about(address, clerk_client):
    legs = [("1", "20", "E"), ("2", "120", "R"), ("3", "20", "R"), ("A", "12", "R")]
    rows = {"mark": MARKS[:1], "leg0": [{"point": n, "length": m, "way": w} for n, m, w in legs]}
    answer = clerk_client.post(address, survey_post(rows), follow=True)
    assert "it would be 12.00 m, which does." in answer.content.decode()


BAD = [
    ("tie-0-first_tape", "many", "is not a number"), ("tie-0-first_tape", "", "Fill it in, or clear the row"),
    ("tie-0-first_tape", "NaN", "is not a number"), ("tie-0-first_tape", "-3", "cannot be negative"),
    ("tie-0-first_tape", "9" * 39, "too large"), ("tie-0-first_tape", "9999", "longer than any garden"),
    ("tie-0-first_tape", "4 stones", "is no unit of length"), ("tie-0-point", "no name", "Use letters"),
    ("tie-0-point", "a\x00", "Null characters"), ("tie-0-point", "", "Fill it in"),
    ("tie-0-side", "up", "not one of the available choices"), ("tie-TOTAL_FORMS", "many", "ManagementForm"),
    ("tie-TOTAL_FORMS", "5000", "at most 120"), ("outline-0-points", "1-999999", "at most 400 points"),
    ("outline-0-points", "1 ä", "is no name of a point"), ("outline-0-becomes", "area:sea", "not one of the"),
    ("outline-0-label", "x" * 121, "at most 120"), ("mark-1-bearing", "N95E", "turns by 90"),
    ("mark-1-bearing", "1e400", "is no bearing"), ("mark-1-off", "", "From which mark?"),
    ("mark-1-east", "3", "either the distance"), ("leg0-0-way", "R 270", "180° at the most"),
    ("leg0-0-way", "somewhere", "is no bearing"), ("walk-0-start", "", "From which mark or point?"),
    ("wheel-taped", "10", "without the other"), ("began_from", "x", "too old to be saved"),
    ("outline-0-label", "a\x07b", "characters"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "value", "sentence"), BAD)
def test_what_cannot_be_read_is_refused_in_a_sentence_and_all_stays(
    address, clerk_client, name, value, sentence
):
    rows = {**LAWN_BY_TIES, "leg0": [{"point": "9", "length": "5", "way": "E"}]}
    answer = clerk_client.post(address, survey_post(rows, **{name: value}))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in page
    assert not GroundSurvey.objects.exists()
    if "TOTAL" not in name:
        assert 'value="20.22"' in page
        assert 'value="16"' in page


def test_hostile_input_never_breaks_the_live_plan(live, clerk_client):
    for value in ("", "NaN", "9" * 5000, "\x00", "<script>alert(1)</script>", "\u202e", "1-4-9", "-1"):
        data = dict.fromkeys(
            survey_post({**LAWN_BY_TIES, "leg0": [{"point": "", "length": "", "way": ""}]}), value
        )
        answer = clerk_client.post(live, data)
        assert answer.status_code == 200
        assert "<script>alert" not in answer.content.decode()


def test_names_and_labels_are_escaped_in_the_drawing(live, clerk_client):
    rows = {**LAWN_BY_TIES, "outline": [{**LAWN, "label": '"><b>Front'}]}
    page = clerk_client.post(live, survey_post(rows)).content.decode()
    assert "<b>Front" not in page
    assert "&lt;b&gt;Front" in page


def test_the_live_plan_marks_weak_points_by_shape_and_words_and_keeps_nothing(live, clerk_client):
    page = clerk_client.post(live, survey_post(LAWN_BY_TIES)).content.decode()
    assert page.count('class="weak"') == 2
    assert "4 unsure ±0.06 m" in page
    assert "One more tape would help most" in page
    assert "meet at 28°" in page
    assert 'class="tape' not in page
    shown = clerk_client.post(live, survey_post(LAWN_BY_TIES, show_tapes="1")).content.decode()
    assert shown.count('<line class="tape"') == 8
    assert not GroundSurvey.objects.exists()


def test_a_blunder_is_pointed_at_beside_the_residuals(live, clerk_client):
    tapes = [
        ("1", "3", "26.83"),
        ("2", "4", "26.83"),
        ("1", "2", "24"),
        ("3", "4", "24"),
        ("2", "3", "12"),
        ("1", "4", "12"),
    ]
    rows = {
        **LAWN_BY_TIES,
        "tie": [TIES[0], tie("2", "25", "16.52"), *TIES[2:]],
        "tape": [{"first": a, "second": b, "tape": m} for a, b, m in tapes],
    }
    page = clerk_client.post(live, survey_post(rows)).content.decode()
    assert "The tape B to 2 reads about" in page
    assert "look again" in page


def test_another_row_keeps_what_was_typed_and_begins_with_what_was_used_last(address, clerk_client):
    page = clerk_client.post(address, survey_post({"mark": MARKS, "tie": TIES}, add="tie")).content.decode()
    assert 'name="tie-TOTAL_FORMS" value="5"' in page
    assert 'name="tie-4-point" value="5"' in page
    assert 'name="tie-4-first" value="A"' in page
    assert 'value="20.22"' in page
    walk = clerk_client.post(address, survey_post({"mark": MARKS}, add="walk")).content.decode()
    assert "Walk 2" in walk
    assert not GroundSurvey.objects.exists()


def test_a_clash_shows_both_sides_and_loses_nothing(address, clerk_client, owner_client):
    clerk_client.post(address, survey_post(LAWN_BY_TIES))
    rows = {**LAWN_BY_TIES, "tie": [*TIES[:3], tie("4", "5.10", "20.30")]}
    answer = owner_client.post(address, survey_post(rows))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "4, A, 5 m, B, 20.22 m, right" in page
    assert "4, A, 5.10 m, B, 20.30 m, right" in page
    assert 'value="20.30"' in page
    assert 'name="began_from" value="1"' in page
    assert owner_client.post(address, survey_post(rows, began_from="1")).status_code == 302
    assert GroundSurvey.objects.get().plane["ties"][3]["first_tape"]["m"] == 5.1


def test_the_ground_goes_to_the_drawing_board(visit, address, clerk_client, clerk):
    answer = clerk_client.post(address, survey_post(LAWN_BY_TIES, put="1"))
    assert answer.status_code == 302
    assert answer["Location"] == reverse("sites:board", args=[visit.site_id])
    ground = PlanDraft.objects.get(person=clerk).document["ground"]
    assert [mark["id"] for mark in ground["marks"]] == ["A", "B"]
    assert ground["areas"][0]["label"] == "Front"
    assert len(ground["areas"][0]["outline"]) == 4
    # once more, moved: the same lawn, in its new place
    rows = {**LAWN_BY_TIES, "outline": [{**LAWN, "points": "1 2 3", "id": "turf-1"}]}
    clerk_client.post(address, survey_post(rows, put="1", began_from="1"))
    areas = PlanDraft.objects.get(person=clerk).document["ground"]["areas"]
    assert [len(area["outline"]) for area in areas] == [3]


def test_the_number_of_queries_does_not_grow_with_the_readings(
    address, clerk_client, django_assert_max_num_queries
):
    clerk_client.post(address, survey_post(LAWN_BY_TIES))
    with django_assert_max_num_queries(12):
        clerk_client.get(address)
