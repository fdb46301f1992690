"""What the installer reads, and in which order."""

import re
import uuid

import pytest
from django.urls import reverse

from jobs.access import get_job
from jobs.models import CheckOff
from jobs.phone_page import phone_page
from tests.jobs.makers import make_job, make_locate

pytestmark = pytest.mark.django_db


def page_of(client, job):
    answer = client.get(reverse("jobs:job", args=[job.pk]))
    assert answer.status_code == 200
    return answer.content.decode()


def row_of(job, kind, ref):
    sections = phone_page(job).sections
    return next(r for s in sections for r in s.rows if r.state.task.kind == kind and r.state.task.ref == ref)


def test_the_stop_card_stands_first_then_the_work_in_order(installer_client):
    text = page_of(installer_client, make_job("demo/plans/quince-house.json"))
    ids = ["stop", "where", "scope", "plan", "stakes", "trench", "sleeves", "test", "cables", "fit", "end"]
    places = [text.index(f'id="{name}"') for name in ids]
    assert places == sorted(places)


def test_the_stop_card_says_do_not_dig_until_it_may(job, clerk, installer_client):
    assert "Do not dig" in page_of(installer_client, job)
    make_locate(job, clerk)
    text = page_of(installer_client, job)
    assert "Dig only as marked" in text
    assert "LR-1" in text
    assert "Do not dig" not in text


def test_hand_digging_and_hazards_are_listed_with_their_reason(installer_client):
    text = page_of(installer_client, make_job("demo/plans/quince-house.json"))
    card = text[text.index('id="stop"') : text.index("</section>", text.index('id="stop"'))]
    by_hand = card[card.index("By hand only") : card.index("In this ground")]
    assert re.search(r"Trench \d+, [\d.]+ m: within 0.60 m of “Power to the workshop”", by_hand)
    assert by_hand.count("Trench ") == 4
    assert by_hand.count("Stormwater pipe") == 1  # two trenches, one reason
    assert "Electric cable" in card
    assert "Works to come: Greenhouse" in card
    assert "Elm Row 3, 12345 Testby" in card


def test_stake_out_of_the_plain_rectangle(job):
    # Source: Pythagoras and the law of cosines, worked by hand: (12,6) lies 12.04 m from A and from B.
    row = row_of(job, "stake", "B3")
    assert row.detail.big == (("from A", "12.04 m"), ("from B", "12.04 m"))
    assert row.detail.line == "right of the line A → B, ± 3 cm"
    assert row.detail.note == ""
    amber = row_of(job, "stake", "C1")  # (0, 12): 5.00, 20.22, 28.3°
    assert amber.detail.big == (("from A", "5.00 m"), ("from B", "20.22 m"))
    assert "28°" in amber.detail.note
    assert row_of(job, "base", "A B").detail.big == (("A to B", "16.00 m"),)


def test_the_same_in_feet_and_inches():
    # 12.0416 m = 39.506 ft = 39 ft 6 in and a little; to the quarter inch 39 ft 6 in
    row = row_of(make_job(units="us"), "stake", "B3")
    assert row.detail.big == (("from A", "39 ft 6 in"), ("from B", "39 ft 6 in"))
    base = row_of(make_job(units="us"), "base", "A B")
    assert base.detail.big == (("A to B", "52 ft 6 in"),)  # 16 m = 52.49 ft


def test_a_trench_shows_length_depth_and_what_lies_in_it(job):
    rows = [r for s in phone_page(job).sections if s.key == "trench" for r in s.rows]
    # 85 m of lateral trench, and 0.3 m from the supply to the valves
    metres = sum(float(dict(r.detail.big)["long"].removesuffix(" m")) for r in rows)
    assert metres == pytest.approx(85.3, abs=0.3)
    assert {dict(r.detail.big)["deep"] for r in rows} == {"30 cm", "45 cm"}
    assert all(r.locked for r in rows)


def test_a_cable_shows_its_limit():
    job = make_job("tests/plans/s2.json")
    rows = [r for s in phone_page(job).sections if s.key == "cables" for r in s.rows]
    assert {dict(r.detail.big)["limit"] for r in rows} == {"50.0 m"}


def test_cautions_stand_where_the_risk_is(installer_client, job):
    text = page_of(installer_client, job)
    for key, words in (
        ("trades", "drinking water"),
        ("trades", "licensed electrician only"),
        ("trench", "Near every mark dig by hand"),
        ("trench", "could cave in"),
        ("test", "Water only, never air"),
        ("test", "solvent cement"),
    ):
        start = text.index(f'id="{key}-rows"')
        assert words in text[start : text.index("</section>", start)]
    assert "Local codes and the licensed trades come first" in text


def test_access_notes_open_at_a_tap(installer_client, job):
    text = page_of(installer_client, job)
    before = text[: text.index("Gate code 9911")]
    assert before.rindex("<details>") > before.rindex("</details>")


def test_plan_at_each_size_and_with_layers_off(job, installer_client):
    url = reverse("jobs:plan", args=[job.pk])
    widths = []
    for zoom in ("1", "2", "4"):
        text = installer_client.get(url, {"zoom": zoom}).content.decode()
        widths.append(int(re.search(r'viewBox="0 0 (\d+)', text)[1]))
    assert widths == [420, 840, 1680]
    shown = installer_client.get(url).content.decode()
    hidden = installer_client.get(url, {"hide": "heads,nonsense"}).content.decode()
    assert 'data-entity="B3"' in shown or "layer-devices" in shown
    assert "layer-devices" not in hidden
    for odd in ({"zoom": "9"}, {"zoom": "x"}, {"hide": "\x00<script>"}):
        answer = installer_client.get(url, odd)
        assert answer.status_code == 200
        assert "<script>" not in answer.content.decode().replace("<script ", "")


def test_no_inline_script_or_style(installer_client, job):
    text = page_of(installer_client, job)
    assert "style=" not in text
    assert "onclick" not in text


def test_words_from_outside_are_escaped(installer_client, job):
    job.quote.site.name = "<img src=x>"
    job.quote.site.save()
    job.snapshot["scope"] = ["<b>bold</b>"]
    job.save()
    text = page_of(installer_client, job)
    assert "<img src=x>" not in text
    assert "<b>bold</b>" not in text


def test_a_page_costs_a_fixed_number_of_queries(installer_client, django_assert_max_num_queries):
    job = make_job("demo/plans/quince-house.json")
    with django_assert_max_num_queries(16):
        page_of(installer_client, job)


def test_the_page_stays_small_enough_for_a_weak_signal(installer_client):
    """150 kB as a page, a tenth of that packed, with 100 tasks and more."""
    job = make_job("demo/plans/quince-house.json")
    assert job.tasks.count() > 100
    url = reverse("jobs:job", args=[job.pk])
    plain = installer_client.get(url)
    assert len(plain.content) < 150_000
    packed = installer_client.get(url, headers={"Accept-Encoding": "gzip"})
    assert packed.headers["Content-Encoding"] == "gzip"
    assert len(packed.content) < 25_000


def test_the_next_task_is_the_first_that_may_be_done_now(installer_client, installer, clerk):
    job = make_job("demo/plans/quince-house.json")
    first = phone_page(job).next_row.state.task
    assert first.kind == "base"  # the request is the office's, the trades are locked
    text = page_of(installer_client, job)
    assert f'href="#task-{first.pk}">Next: {first.title}' in text
    assert [section.key for section in phone_page(job).sections if section.opens] == ["stakes"]
    for task in job.tasks.exclude(kind__in=["trench", "sleeve"]):
        CheckOff.objects.create(id=uuid.uuid4(), task=task, result="done", by=installer)
    assert phone_page(job).next_row is None
    assert "Nothing else can be done now" in page_of(installer_client, job)
    make_locate(job, clerk)
    assert phone_page(get_job(installer, job.pk)).next_row.state.task.kind == "trench"


def test_heads_stand_below_their_zone_and_points_below_their_kind():
    sections = {s.key: s for s in phone_page(make_job("demo/plans/quince-house.json")).sections}
    heads = {name: [row.state.task.ref for row in rows] for name, rows in sections["fit"].groups.items()}
    assert heads["Heads of V1, Lawn, second column"] == ["B1", "B2", "B3"]
    assert list(sections["stakes"].groups)[:3] == ["Between the marks", "Heads", "Valves"]
    assert "Set out sleeve end T1a" in [row.state.task.title for row in sections["stakes"].rows]


def test_a_task_whose_figures_are_gone_says_whom_to_ask(job):
    job.tasks.filter(kind="stake", ref="B3").update(ref="B99")
    assert "ask the office" in row_of(job, "stake", "B99").detail.note


def test_the_small_plan_is_a_picture_of_its_own(installer_client, client, job):
    url = reverse("jobs:plan_image", args=[job.pk])
    assert f'<img src="{url}"' in page_of(installer_client, job)
    answer = installer_client.get(url)
    assert answer.headers["Content-Type"] == "image/svg+xml"
    assert set(answer.headers["Cache-Control"].split(", ")) == {"private", "max-age=600"}
    assert b"<svg" in answer.content
    assert b"<script" not in answer.content
    logged_out = client.get(url)
    assert logged_out.status_code == 302
    assert "max-age=600" not in logged_out.headers.get("Cache-Control", "")
    assert installer_client.post(url).status_code == 405
    assert installer_client.get(reverse("jobs:plan_image", args=[99999])).status_code == 404
