"""The walk on the phone: a line kept by itself, asked about, and two who fill the same one."""

from datetime import date, time

import pytest
from django.urls import reverse

from hydraulics.units import parse_quantity
from office.models import AuditEvent
from sites.models import SheetEntry, Visit
from sites.readings import Bucket, Gauge, Height, VisitData
from sites.services import save_visit
from sites.survey_services import save_survey
from sites.walk_round.lines import LINES
from sites.walk_round.services import missing_lines
from sites.walk_round.sheet import sheet_of

HTMX = {"HX-Request": "true"}


@pytest.fixture
def visit(site, clerk):
    return save_visit(VisitData(date(2026, 5, 4), "Ola"), site=site, by=clerk)


@pytest.fixture
def us_visit(us_site, clerk):
    return save_visit(VisitData(date(2026, 5, 4), "Ola"), site=us_site, by=clerk)


def line_address(visit, key):
    return reverse("sites:walk-line", args=[visit.pk, key])


def keep(client, visit, key, htmx=True, **typed):
    data = {"began_from": 0, "confidence": "measured", **typed}
    return client.post(line_address(visit, key), data, headers=HTMX if htmx else {})


def entry(visit, key):
    return SheetEntry.objects.get(visit=visit, field=key)


def test_a_walk_begins_with_a_visit_of_today_and_a_second_tap_finds_it(site, clerk_client, owner_client):
    address = reverse("sites:walk-start", args=[site.pk])
    answer = clerk_client.post(address)
    visit = Visit.objects.get()
    assert answer["Location"] == reverse("sites:walk", args=[visit.pk])
    assert (visit.measured_by, visit.visited_at is None) == ("Ola Test", False)
    assert clerk_client.post(address)["Location"] == answer["Location"]
    owner_client.post(address)
    assert Visit.objects.count() == 2
    assert clerk_client.get(address).status_code == 405


def test_every_line_stands_on_the_page_in_walking_order(visit, clerk_client):
    text = clerk_client.get(reverse("sites:walk", args=[visit.pk])).content.decode()
    places = [text.index(f'id="line-{line.key}"') for line in LINES]
    assert places == sorted(places)
    assert 'inputmode="decimal"' in text
    assert "No digging on a visit" in text
    assert "required missing" in text


def test_a_figure_is_kept_as_typed_beside_its_si_value(visit, us_visit, clerk_client, clerk):
    answer = keep(clerk_client, visit, "gate", answer="0,95", confidence="estimated")
    kept = entry(visit, "gate")
    assert answer.status_code == 200
    assert (kept.text, kept.value_si, kept.confidence) == ("0,95 m", pytest.approx(0.95), "estimated")
    assert kept.made_by == clerk
    keep(clerk_client, us_visit, "gate", answer="3 ft 4 in")
    # 40 inches of 0.0254 m (international inch)
    assert entry(us_visit, "gate").value_si == pytest.approx(1.016)
    assert AuditEvent.objects.filter(verb="sheet.line_kept").count() == 2


def test_the_answer_is_the_line_and_the_new_count(visit, clerk_client):
    text = keep(clerk_client, visit, "meter_still", answer="no").content.decode()
    assert text.strip().startswith('<article class="line there"')
    assert "Find it, then read pressure and flow again" in text
    assert 'id="walk-progress" hx-swap-oob="true"' in text
    assert "7 missing" in text.split('id="places"')[1].split('href="#meter"')[1].split("</a>")[0]
    assert 'href="#line-who_when"' in text  # the first required line that nobody has answered


def test_a_line_that_matters_now_comes_with_the_answer(visit, clerk_client):
    text = keep(clerk_client, visit, "water_source", answer="well").content.decode()
    assert '<article class="line lacks" id="line-pump_on" hx-swap-oob="true">' in text
    again = keep(clerk_client, visit, "water_source", answer="mains", began_from=1).content.decode()
    assert 'id="line-pump_on" hidden hx-swap-oob="true"' in again


def test_none_asked_is_an_answer_and_a_blank_is_not(visit, clerk_client):
    assert "future_works" in [row.key for row in missing_lines(visit)]
    text = keep(clerk_client, visit, "future_works", answer="", none="on", confidence="").content.decode()
    assert "Nothing planned: I asked" in text
    assert (entry(visit, "future_works").text, entry(visit, "future_works").confidence) == (
        "none, asked",
        "told",
    )
    assert "future_works" not in [row.key for row in missing_lines(visit)]
    keep(clerk_client, visit, "future_works", answer="", began_from=1)
    assert "future_works" in [row.key for row in missing_lines(visit)]


def test_none_beside_an_answer_is_asked_back(visit, clerk_client):
    answer = keep(clerk_client, visit, "future_works", answer="A pool", none="on")
    assert answer.status_code == 422
    assert "A pool" in answer.content.decode()
    assert keep(clerk_client, visit, "gate", answer="", none="on").status_code == 422
    assert not SheetEntry.objects.exists()


def test_an_unusual_figure_is_asked_about_and_kept_once_said_to_be_right(visit, clerk_client):
    answer = keep(clerk_client, visit, "gate", answer="5.5")
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "rare narrowest way in" in text
    assert 'value="5.5"' in text
    token = text.split('name="confirm" value="')[1].split('"')[0]
    assert keep(clerk_client, visit, "gate", answer="5.6", confirm=token).status_code == 422
    assert keep(clerk_client, visit, "gate", answer="5.5", confirm=token).status_code == 200
    # what was said to be right is not asked again
    assert keep(clerk_client, visit, "gate", answer="5.5", confidence="told", began_from=1).status_code == 200


def test_a_slip_of_the_unit_is_named(us_visit, clerk_client):
    """3 psi is no setting of a regulator; 3 bar is a usual one (common practice, no source)."""
    text = keep(clerk_client, us_visit, "regulator_set", answer="3").content.decode()
    assert "Did you mean" in text
    assert "3.00 bar" in text


@pytest.mark.parametrize("typed", ["wide", "90", "-1", "1e9", "0.9 bar", "x" * 5000, "9" * 400, "\x00"])
def test_what_cannot_be_is_said_beside_the_field_and_stays_typed(visit, clerk_client, typed):
    answer = keep(clerk_client, visit, "gate", answer=typed)
    assert answer.status_code == 422
    assert "errorlist" in answer.content.decode()
    assert not SheetEntry.objects.exists()


HOSTILE = [
    "",
    "NaN",
    "Infinity",
    "1e400",
    "9" * 5000,
    "-9223372036854775809",
    "\x00",
    "x" * 60_000,
    "<script>",
    "[1]",
]


@pytest.mark.parametrize("line", [line for line in LINES if not line.held], ids=lambda line: line.key)
def test_no_nonsense_breaks_a_line(visit, clerk_client, line):
    fields = ("answer", "began_from", "confidence", "none", "confirm")
    for place, value in enumerate(HOSTILE):
        one = fields[place % len(fields)]
        ways = ({"answer": value}, {"answer": "1", one: value}, dict.fromkeys(fields, value))
        answer = keep(clerk_client, visit, line.key, **ways[(place + LINES.index(line)) % len(ways)])
        assert answer.status_code in (200, 409, 422)
        assert "<script>" not in answer.content.decode()


def test_two_who_fill_the_same_line_see_both(visit, clerk_client, owner_client):
    assert keep(clerk_client, visit, "gate", answer="0.9").status_code == 200
    answer = keep(owner_client, visit, "gate", answer="1.1")
    text = answer.content.decode()
    assert answer.status_code == 409
    assert "Ola Test kept “0.9 m” meanwhile" in text
    assert 'value="1.1"' in text
    assert 'name="began_from" value="1"' in text
    assert entry(visit, "gate").text == "0.9 m"
    assert keep(owner_client, visit, "gate", answer="1.1", began_from=1).status_code == 200
    assert entry(visit, "gate").text == "1.1 m"


def test_two_who_fill_different_lines_do_not_meet(visit, clerk_client, owner_client):
    assert keep(clerk_client, visit, "gate", answer="0.9").status_code == 200
    assert keep(owner_client, visit, "soil", answer="loam").status_code == 200


def test_the_same_answer_sent_twice_is_no_clash(visit, clerk_client):
    for _ in range(2):
        assert keep(clerk_client, visit, "gate", answer="0.9").status_code == 200
    assert AuditEvent.objects.filter(verb="sheet.line_kept").count() == 1


def test_without_script_a_line_leads_back_to_its_place(visit, clerk_client):
    answer = keep(clerk_client, visit, "gate", htmx=False, answer="0.9")
    assert answer["Location"] == f"{reverse('sites:walk', args=[visit.pk])}#line-gate"
    refused = keep(clerk_client, visit, "gate", htmx=False, answer="wide", began_from=1)
    text = refused.content.decode()
    assert refused.status_code == 422
    assert 'value="wide"' in text
    assert "Not kept yet" in text
    assert text.count("<article") == len(LINES)


def test_what_the_visit_holds_is_shown_and_not_stored_twice(site, clerk, clerk_client):
    def q(text, kind, unit):
        return parse_quantity(text, kind, unit)

    buckets = tuple(
        Bucket(q("12", "volume", "L"), q(s, "time", "s"), "Garden tap") for s in ("24", "24.5", "24")
    )
    visit = save_visit(
        VisitData(
            date(2026, 5, 4), "Ola", time(10, 30), static_tap="Garden tap",
            static=q("4.2", "pressure", "bar"), buckets=buckets,
            gauges=(Gauge(q("20", "flow", "L/min"), q("3.1", "pressure", "bar")),),
            heights=(Height("Far corner", q("1.2", "length", "m")),), meter_read="Q3 4",
        ),
        site=site, by=clerk,
    )  # fmt: skip
    text = clerk_client.get(reverse("sites:walk", args=[visit.pk])).content.decode()
    assert "4.2 bar at Garden tap" in text
    lacking = {row.key: row for row in missing_lines(visit)}
    assert not {"who_when", "static", "bucket", "residual", "heights", "meter"} & set(lacking)
    assert lacking["service_pipe"].url == reverse("sites:visit-edit", args=[visit.pk])
    assert keep(clerk_client, visit, "static", answer="5 bar").status_code == 404


def test_one_bucket_run_is_shown_and_two_more_are_still_asked(site, clerk):
    bucket = Bucket(parse_quantity("12", "volume", "L"), parse_quantity("24", "time", "s"))
    visit = save_visit(VisitData(date(2026, 5, 4), "Ola", buckets=(bucket,)), site=site, by=clerk)
    assert sheet_of(visit).held["bucket"].text == "12 L in 24 s"
    assert "bucket" in [row.key for row in missing_lines(visit)]


def test_boundary_lines_come_from_the_measured_ground(visit, clerk):
    def length(m):
        return {"text": f"{m} m", "m": m}

    plane = {
        "marks": [{"name": "A"}, {"name": "B", "off": "A", "distance": length(8.0)}],
        "tapes": [{"first": "A", "second": "P2", "tape": length(11.3)}],
        "outlines": [
            {"id": "H", "becomes": "surface", "kind": "building", "points": ["A", "B", "P1"]},
            {"id": "L", "label": "Lawn", "becomes": "area", "kind": "turf", "points": ["P1", "P2", "P3"]},
            {"id": "E", "becomes": "boundary", "points": ["P1", "P2", "P3", "P4"]},
        ],
        "wheel": {"taped": length(10.0), "shown": length(9.8)},
    }
    ground = {"fixed_corners", "house_outline", "boundary", "diagonals", "wheel", "areas"}
    assert ground <= {row.key for row in missing_lines(visit)}
    save_survey(visit=visit, part="plane", document=plane, began_from=0, by=clerk)
    assert not ground & {row.key for row in missing_lines(visit)}
    # 10.00 over 9.80, by hand
    assert sheet_of(visit).held["wheel"].text == "9.8 m over 10.0 m: factor 1.020"


def test_heights_over_the_ground_stand_in_for_those_from_the_tap(visit, clerk):
    levels = {"spots": [{"point": "P1", "height": {"text": "0.4 m", "m": 0.4}}]}
    save_survey(visit=visit, part="levels", document=levels, began_from=0, by=clerk)
    assert "heights" not in [row.key for row in missing_lines(visit)]


def test_what_is_missing_names_reason_and_place(visit):
    rows = missing_lines(visit)
    severities = [row.severity for row in rows]
    assert severities == sorted(severities)  # "required" before "wanted"
    gate = next(row for row in rows if row.key == "gate")
    assert "no machine" in gate.why
    assert gate.url == f"{reverse('sites:walk', args=[visit.pk])}#line-gate"


def test_who_may_walk(visit, site, installer_client, client):
    for method, address in [
        ("get", reverse("sites:walk", args=[visit.pk])), ("post", line_address(visit, "gate")),
        ("post", reverse("sites:walk-start", args=[site.pk])),
        ("get", reverse("sites:walk-print", args=[visit.pk])),
        ("get", reverse("sites:walk-print-empty", args=[site.pk])),
    ]:  # fmt: skip
        assert getattr(installer_client, method)(address).status_code == 403
        assert getattr(client, method)(address)["Location"].startswith("/account/login/")


def test_there_is_no_such_line_or_visit(visit, clerk_client):
    assert keep(clerk_client, visit, "nonsense", answer="1").status_code == 404
    assert clerk_client.get(line_address(visit, "gate")).status_code == 405
    assert clerk_client.get(reverse("sites:walk", args=[visit.pk + 1])).status_code == 404


def test_the_page_asks_the_database_as_often_for_a_full_sheet(
    visit, clerk_client, django_assert_max_num_queries
):
    for key, answer in [("gate", "0.9"), ("soil", "loam"), ("windy", "no"), ("decides", "Ada")]:
        keep(clerk_client, visit, key, answer=answer)
    with django_assert_max_num_queries(14):
        clerk_client.get(reverse("sites:walk", args=[visit.pk]))


def test_an_answer_is_shown_as_it_was_typed(visit, clerk_client):
    key = next(line.key for line in LINES if line.kind == "text" and not line.held and line.when is None)
    text = keep(clerk_client, visit, key, answer="ask Mrs Hill: PVC, 24 V").content.decode()
    assert "Ask Mrs Hill: PVC, 24 V" in text
