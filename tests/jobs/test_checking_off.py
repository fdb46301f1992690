"""Check-offs: kept once, never lost, and refused where the rules forbid them."""

import uuid
from datetime import timedelta
from urllib.parse import unquote

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.errors import Refused
from jobs.models import CheckOff, Result, TaskKind
from jobs.services import Entry, check_off
from jobs.task_state import latest_results, task_states
from office.models import AuditEvent
from tests.jobs.makers import make_job, make_locate

pytestmark = pytest.mark.django_db


def entry(result=Result.DONE, **changes):
    return Entry(uuid.uuid4(), result, **changes)


def first(job, kind):
    return job.tasks.filter(kind=kind).first()


def post(client, task, **changes):
    data = {"client_id": str(uuid.uuid4()), "result": "done", "note": "", "device_at": "", **changes}
    return client.post(reverse("jobs:check_off", args=[task.job_id, task.pk]), data)


def test_who_and_when_are_kept_by_both_clocks(job, installer):
    phone = timezone.now() - timedelta(hours=3)
    row, is_new = check_off(task=first(job, TaskKind.STAKE), by=installer, entry=entry(device_at=phone))
    assert is_new
    assert (row.by, row.device_at) == (installer, phone)
    assert abs(row.at - timezone.now()) < timedelta(minutes=1)
    assert AuditEvent.objects.filter(verb="job.checked_off", person=installer).exists()


@pytest.mark.parametrize("off", [timedelta(days=-15), timedelta(hours=1)])
def test_a_clock_that_cannot_be_right_is_not_kept(job, installer, off):
    row, _ = check_off(
        task=first(job, TaskKind.STAKE), by=installer, entry=entry(device_at=timezone.now() + off)
    )
    assert row.device_at is None


def test_the_same_entry_sent_twice_is_kept_once(job, installer):
    task, sent = first(job, TaskKind.STAKE), entry()
    assert check_off(task=task, by=installer, entry=sent)[1] is True
    assert check_off(task=task, by=installer, entry=sent)[1] is False
    assert CheckOff.objects.count() == 1


def test_one_id_cannot_say_two_things(job, installer):
    task, sent = first(job, TaskKind.STAKE), entry()
    check_off(task=task, by=installer, entry=sent)
    with pytest.raises(Refused, match="says something else"):
        check_off(task=task, by=installer, entry=Entry(sent.id, Result.PROBLEM))
    with pytest.raises(Refused):
        check_off(task=first(job, TaskKind.HEAD), by=installer, entry=sent)


def test_taking_back_keeps_the_history(job, installer):
    task = first(job, TaskKind.STAKE)
    for result in (Result.DONE, Result.UNDONE):
        check_off(task=task, by=installer, entry=entry(result))
    state = next(state for state in task_states(job) if state.task == task)
    assert state.result == "open"
    assert [row.result for row in state.history] == ["done", "undone"]


def test_trenches_are_locked_until_the_locate_is_valid(job, installer, clerk):
    trench = first(job, TaskKind.TRENCH)
    with pytest.raises(Refused, match="No locate has been asked for"):
        check_off(task=trench, by=installer, entry=entry())
    check_off(task=trench, by=installer, entry=entry(Result.PROBLEM, note="Unmarked cable"))  # always heard
    make_locate(job, clerk, answered=False)
    with pytest.raises(Refused, match="answered"):
        check_off(task=trench, by=installer, entry=entry())
    job.locates.update(answers_complete=True)
    check_off(task=trench, by=installer, entry=entry())
    assert latest_results(job)[trench.pk] == "done"


def test_work_dug_in_time_but_sent_late_is_taken(job, installer, clerk):
    make_locate(job, clerk, clear_in=-10, valid=8)  # expired two days ago
    trench = first(job, TaskKind.TRENCH)
    with pytest.raises(Refused, match="expired"):
        check_off(task=trench, by=installer, entry=entry())
    dug = timezone.now() - timedelta(days=3)
    assert check_off(task=trench, by=installer, entry=entry(device_at=dug))[1]


def test_crossings_are_locked_too(installer):
    job = make_job("tests/plans/s3.json")
    with pytest.raises(Refused, match="Locked"):
        check_off(task=first(job, TaskKind.SLEEVE), by=installer, entry=entry())


def test_licensed_work_needs_a_licence_number(job, installer):
    task = first(job, TaskKind.PLUMBER)
    with pytest.raises(Refused, match="licence number"):
        check_off(task=task, by=installer, entry=entry())
    job.bookings.filter(trade="plumber").update(licence_number="PL-1")
    assert check_off(task=task, by=installer, entry=entry())[1]


def test_nobody_ticks_the_locate_request_by_hand(open_job, clerk):
    with pytest.raises(Refused, match="office records"):
        check_off(task=first(open_job, TaskKind.LOCATE), by=clerk, entry=entry())


def test_a_finished_job_takes_only_problems(job, installer):
    job.finished_at = timezone.now()
    job.save()
    task = first(job, TaskKind.STAKE)
    with pytest.raises(Refused, match="finished"):
        check_off(task=task, by=installer, entry=entry())
    assert check_off(task=task, by=installer, entry=entry(Result.PROBLEM))[1]


def test_by_the_page_without_script(job, installer_client):
    task = first(job, TaskKind.STAKE)
    answer = post(installer_client, task)
    assert answer.status_code == 302
    assert answer.url.endswith(f"#task-{task.pk}")
    assert CheckOff.objects.get().result == "done"


def test_pressing_twice_by_the_page(job, installer_client):
    task, again = first(job, TaskKind.STAKE), str(uuid.uuid4())
    for _ in range(2):
        assert post(installer_client, task, client_id=again).status_code == 302
    assert CheckOff.objects.count() == 1


def test_htmx_gets_the_row_and_the_counts(job, installer_client):
    task = first(job, TaskKind.STAKE)
    url = reverse("jobs:check_off", args=[job.pk, task.pk])
    data = {"client_id": str(uuid.uuid4()), "result": "problem", "note": "<b>root</b>"}
    data["device_at"] = "2026-01-01T10:00:00.123Z"
    answer = installer_client.post(url, data, headers={"HX-Request": "true"})
    text = answer.content.decode()
    assert answer.status_code == 200
    assert "<html" not in text
    assert "&lt;b&gt;root&lt;/b&gt;" in text
    assert 'id="progress" hx-swap-oob="true"' in text


@pytest.mark.parametrize(
    "wrong",
    [
        {"client_id": "7"},
        {"client_id": ""},
        {"result": "finished"},
        {"result": ""},
        {"note": "x" * 501},
        {"device_at": "yesterday"},
        {"note": "a\x00b"},
    ],
)
def test_bad_input_is_refused_with_a_sentence(job, installer_client, wrong):
    answer = post(installer_client, first(job, TaskKind.STAKE), **wrong)
    assert answer.status_code == 400
    assert 'role="alert"' in answer.content.decode()
    assert not CheckOff.objects.exists()


def test_a_refused_tick_says_why_and_keeps_the_note(job, installer_client):
    answer = post(installer_client, first(job, TaskKind.TRENCH), note="half way")
    assert answer.status_code == 409
    text = answer.content.decode()
    assert "Locked. No locate has been asked for" in text
    assert "half way" in text


def test_a_task_of_another_job_is_not_found(job, installer_client):
    other = make_job("tests/plans/s3.json").tasks.first()
    url = reverse("jobs:check_off", args=[job.pk, other.pk])
    assert installer_client.post(url, {"client_id": str(uuid.uuid4()), "result": "done"}).status_code == 404


def test_a_login_on_the_way_leads_back_to_the_task(job, client):
    task = first(job, TaskKind.STAKE)
    answer = post(client, task)
    assert answer.status_code == 302
    assert not CheckOff.objects.exists()
    way_back = f"{reverse('jobs:job', args=[job.pk])}#task-{task.pk}"
    assert unquote(answer.url.split("next=")[1]) == way_back


def test_a_note_that_is_too_long_says_how_long_it_may_be(job, installer_client):
    answer = post(installer_client, first(job, TaskKind.STAKE), note="x" * 10_000)
    assert "500 letters at most" in answer.content.decode()
