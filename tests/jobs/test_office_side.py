"""What the office arranges: start and crew, licensed trades, finishing."""

import re
import uuid
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.models import CheckOff, Job, Result, TaskKind
from jobs.task_state import latest_results
from tests.jobs.makers import make_locate

pytestmark = pytest.mark.django_db


def day(offset):
    return str(timezone.localdate() + timedelta(days=offset))


def plan(client, job, **changes):
    data = {"start_on": day(40), "version": str(job.version), **changes}
    return client.post(reverse("jobs:schedule", args=[job.pk]), data)


def test_start_and_crew_are_kept(job, clerk_client, installer):
    assert plan(clerk_client, job, crew=[installer.pk]).status_code == 302
    stored = Job.objects.get()
    assert str(stored.start_on) == day(40)
    assert list(stored.crew.all()) == [installer]
    assert stored.version == 2


def test_a_start_before_digging_is_allowed_is_refused(job, clerk, clerk_client):
    page = plan(clerk_client, job, start_on=day(1))
    assert page.status_code == 400
    text = page.content.decode()
    assert "Buried services will not be located by then" in text
    assert f'value="{day(1)}"' in text  # what was typed stays
    make_locate(job, clerk, clear_in=5)
    assert plan(clerk_client, job, start_on=day(4)).status_code == 400
    assert plan(clerk_client, job, start_on=day(5)).status_code == 302


def test_an_override_allows_an_early_start(job, clerk_client):
    data = {"name": "Ola", "reason": "By hand only", "last_day": day(3)}
    clerk_client.post(reverse("jobs:override", args=[job.pk]), data)
    assert plan(clerk_client, job, start_on=day(1)).status_code == 302


@pytest.mark.parametrize(
    "wrong",
    [
        {"start_on": "monday"},
        {"crew": ["999999"]},
        {"crew": ["9" * 25]},
        {"crew": ["x"]},
        {"version": ""},
        {"version": "x"},
    ],
)
def test_bad_input_changes_nothing(job, clerk_client, wrong):
    assert plan(clerk_client, job, **wrong).status_code == 400
    assert Job.objects.get().version == 1


def test_two_people_planning_see_each_other(job, clerk_client, owner_client):
    assert plan(owner_client, job, start_on=day(50)).status_code == 302
    page = plan(clerk_client, job, start_on=day(60))
    assert page.status_code == 409
    text = page.content.decode()
    assert day(60) in text
    assert day(50) in text
    assert 'name="version" value="2"' in text
    assert str(Job.objects.get().start_on) == day(50)


def book(client, job, trade="plumber", **changes):
    data = {
        "firm": "Well & Daughters",
        "licence_number": "PL-77",
        "booked_on": day(9),
        "version": "1",
        **changes,
    }
    return client.post(reverse("jobs:booking", args=[job.pk, trade]), data)


def test_a_trade_is_booked_and_done(job, clerk_client):
    assert book(clerk_client, job).status_code == 302
    task = job.tasks.get(kind=TaskKind.PLUMBER)
    assert task.pk not in latest_results(job)
    assert book(clerk_client, job, done_on=day(0), version="2").status_code == 302
    assert latest_results(job)[task.pk] == "done"
    assert CheckOff.objects.get().note == "Well & Daughters PL-77"


def test_licensed_work_done_needs_its_licence_and_a_past_date(job, clerk_client):
    page = book(clerk_client, job, licence_number="", done_on=day(0))
    assert page.status_code == 400
    assert "licence number" in page.content.decode()
    assert book(clerk_client, job, done_on=day(2)).status_code == 400
    assert book(clerk_client, job, firm="x" * 151).status_code == 400
    assert job.bookings.get(trade="plumber").version == 1


def test_booking_clash(job, clerk_client):
    assert book(clerk_client, job, "electrician").status_code == 302
    page = book(clerk_client, job, "electrician", firm="Volt & Co")
    assert page.status_code == 409
    assert "Volt &amp; Co" in page.content.decode()


def finish(client, job, name="jobs:finish", version=None):
    return client.post(reverse(name, args=[job.pk]), {"version": version or Job.objects.get().version})


def test_a_job_is_finished_when_all_is_done(job, clerk, clerk_client):
    page = finish(clerk_client, job)
    assert page.status_code == 409
    assert "tasks are not done yet" in page.content.decode()
    for task in job.tasks.all():
        CheckOff.objects.create(id=uuid.uuid4(), task=task, result=Result.DONE, by=clerk)
    assert finish(clerk_client, job).status_code == 302
    assert Job.objects.get().finished_at
    assert finish(clerk_client, job, "jobs:reopen").status_code == 302
    assert Job.objects.get().finished_at is None


def test_finishing_from_a_stale_page(job, clerk, clerk_client):
    for task in job.tasks.all():
        CheckOff.objects.create(id=uuid.uuid4(), task=task, result=Result.DONE, by=clerk)
    assert finish(clerk_client, job, version="7").status_code == 409
    assert finish(clerk_client, job, version="x").status_code == 400
    assert Job.objects.get().finished_at is None


def test_the_page_says_what_the_job_waits_for(job, clerk, clerk_client):
    task = job.tasks.filter(kind=TaskKind.STAKE).first()
    CheckOff.objects.create(
        id=uuid.uuid4(), task=task, result=Result.PROBLEM, note="Root in the way", by=clerk
    )
    text = clerk_client.get(reverse("jobs:office", args=[job.pk])).content.decode()
    for words in (
        "A problem is reported from the site",
        "Root in the way",
        "No locate has been asked for",
        "Licensed plumber not booked",
        "Nobody is assigned",
        "No start date yet",
    ):
        assert words in text


def test_every_control_has_an_id_and_a_label_of_its_own(job, clerk, clerk_client):
    make_locate(job, clerk)
    text = clerk_client.get(reverse("jobs:office", args=[job.pk])).content.decode()
    ids = re.findall(r' id="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    for label in re.findall(r'<label[^>]* for="([^"]+)"', text):
        assert label in ids
