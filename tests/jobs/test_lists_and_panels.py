"""Jobs by week, and the boxes of the daily page."""

from datetime import date, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.access import jobs_for
from jobs.panels import jobs_in_question, jobs_of_today, jobs_to_come
from jobs.week_list import by_week, job_lines
from tests.jobs.makers import make_job, make_locate

pytestmark = pytest.mark.django_db


def start(job, day, *crew):
    job.start_on = day
    job.save()
    job.crew.set(crew)


def test_weeks_begin_on_monday_and_undated_jobs_come_last(clerk):
    days = [date(2031, 3, 12), date(2031, 3, 9), None, date(2031, 3, 10)]
    for day in days:
        start(make_job(), day)
    weeks = by_week(job_lines(jobs_for(clerk)))
    assert [week.monday for week in weeks] == [date(2031, 3, 3), date(2031, 3, 10), None]
    assert [line.job.start_on for line in weeks[1].lines] == [date(2031, 3, 10), date(2031, 3, 12)]


def test_the_last_day_to_ask_is_named(clerk):
    job = make_job()
    start(job, timezone.localdate() + timedelta(days=40))
    (line,) = job_lines(jobs_for(clerk))
    assert any("No locate has been asked for: ask by" in block.sentence for block in line.blocks)


def test_a_locate_that_ends_before_the_start_is_flagged(clerk):
    job = make_job()
    make_locate(job, clerk, clear_in=-1, valid=5)
    start(job, timezone.localdate() + timedelta(days=30))
    (line,) = job_lines(jobs_for(clerk))
    assert line.urgent
    assert any("expired before the start" in block.sentence for block in line.blocks)


def test_installers_see_their_own_first_and_the_others_below(installer, installer_client):
    mine, other = make_job(), make_job()
    mine.crew.add(installer)
    text = installer_client.get(reverse("jobs:list")).content.decode()
    assert text.index(str(mine.quote.site)) < text.index("Other jobs") < text.index(str(other.quote.site))


def test_the_list_costs_the_same_for_many_jobs(clerk_client, django_assert_num_queries, db):
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    for _ in range(2):
        make_job()
    clerk_client.get(reverse("jobs:list"))
    with CaptureQueriesContext(connection) as few:
        clerk_client.get(reverse("jobs:list"))
    for _ in range(4):
        make_job()
    with django_assert_num_queries(len(few)):
        clerk_client.get(reverse("jobs:list"))


def test_finished_jobs_are_a_list_of_their_own(clerk_client, job):
    job.finished_at = timezone.now()
    job.save()
    assert str(job.quote.site) not in clerk_client.get(reverse("jobs:list")).content.decode()
    assert str(job.quote.site) in clerk_client.get(reverse("jobs:list") + "?show=finished").content.decode()


def test_today_shows_jobs_that_have_begun(installer, job):
    assert jobs_of_today(installer) == []
    start(job, timezone.localdate(), installer)
    (row,) = jobs_of_today(installer)
    assert row.url == reverse("jobs:job", args=[job.pk])
    start(job, timezone.localdate() + timedelta(days=1))
    assert jobs_of_today(installer) == []


def test_today_says_whether_anybody_may_dig(installer, clerk, job):
    start(job, timezone.localdate(), installer)
    (row,) = jobs_of_today(installer)
    assert row.urgent
    assert row.detail.startswith("Do not dig, 0 of")
    make_locate(job, clerk)
    (row,) = jobs_of_today(installer)
    assert not row.urgent
    assert row.detail.startswith("Digging open, 0 of")


def test_an_installer_sees_the_next_jobs_that_he_is_on(installer, installer_client, clerk_client, job):
    start(job, None, installer)
    later = make_job()
    start(later, timezone.localdate() + timedelta(days=3), installer)
    start(make_job(), timezone.localdate() + timedelta(days=1))  # not his
    assert [row.url for row in jobs_to_come(installer)] == [
        reverse("jobs:job", args=[later.pk]),
        reverse("jobs:job", args=[job.pk]),
    ]
    assert jobs_to_come(installer)[1].detail == "no date yet"
    assert "Your next jobs" in installer_client.get(reverse("office:day")).content.decode()
    assert "Your next jobs" not in clerk_client.get(reverse("office:day")).content.decode()


def test_the_office_sees_what_is_urgent(clerk, job):
    (row,) = jobs_in_question(clerk)
    assert row.urgent
    assert "No locate has been asked for" in row.detail


def test_the_daily_page_shows_the_boxes(clerk_client, installer_client, job):
    text = clerk_client.get(reverse("office:day")).content.decode()
    assert "Jobs waiting for the office" in text
    assert "Jobs today" in text
    text = installer_client.get(reverse("office:day")).content.decode()
    assert "Jobs today" in text
    assert "Jobs waiting for the office" not in text
