"""Boxes of the daily page."""

import datetime

from django.urls import reverse
from django.utils import timezone

from jobs.access import jobs_for
from jobs.digging import digging_on
from jobs.week_list import JobLine, job_lines
from jobs.working_days import day_words
from office.models import Person
from office.navigation import PanelRow
from sites.models import Site


def jobs_of_today(person: Person) -> list[PanelRow]:
    """Jobs that have begun and are not finished; an installer's own first, with whether he may dig."""
    today = timezone.localdate()
    jobs = jobs_for(person).filter(finished_at__isnull=True, start_on__lte=today)
    lines = sorted(job_lines(jobs), key=lambda line: not line.job.is_mine)  # type: ignore[attr-defined]  # annotated
    return [_row_of_today(line, today) for line in lines]


def jobs_to_come(person: Person) -> list[PanelRow]:
    """The jobs that a person is on and that have not begun, those without a date last."""
    today = timezone.localdate()
    jobs = jobs_for(person).filter(crew=person, finished_at__isnull=True).exclude(start_on__lte=today)
    lines = sorted(job_lines(jobs), key=lambda line: line.job.start_on or datetime.date.max)
    return [
        PanelRow(
            text=str(line.job.quote.site),
            url=reverse("jobs:job", args=[line.job.pk]),
            detail=f"starts {day_words(line.job.start_on)}" if line.job.start_on else "no date yet",
        )
        for line in lines
    ]


def jobs_in_question(person: Person) -> list[PanelRow]:
    """For the office: each unfinished job with what is urgent about it."""
    jobs = jobs_for(person).filter(finished_at__isnull=True)
    rows = []
    for line in job_lines(jobs):
        urgent = "; ".join(block.sentence for block in line.blocks if block.urgent)
        if urgent:
            url = reverse("jobs:office", args=[line.job.pk])
            rows.append(PanelRow(str(line.job.quote.site), url, urgent, urgent=True))
    return rows


def jobs_of_site(person: Person, site: Site) -> list[PanelRow]:
    """For the box on a site's page."""
    jobs = jobs_for(person).filter(quote__site=site)
    name = "jobs:office" if person.is_office else "jobs:job"
    return [
        PanelRow(
            text=f"Job from quote {line.job.quote.reference}",
            url=reverse(name, args=[line.job.pk]),
            detail="finished" if line.job.finished_at else f"{line.done} of {line.total} done",
            urgent=line.urgent,
        )
        for line in job_lines(jobs)
    ]


def _row_of_today(line: JobLine, today: datetime.date) -> PanelRow:
    may_dig = digging_on(line.job, today).is_open
    return PanelRow(
        text=str(line.job.quote.site),
        url=reverse("jobs:job", args=[line.job.pk]),
        detail=f"{'Digging open' if may_dig else 'Do not dig'}, {line.done} of {line.total} done",
        urgent=not may_dig,
    )
