"""Jobs by week, each with what it waits for."""

import datetime
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from django.db.models import QuerySet
from django.utils import timezone

from jobs.blocks import Block, Today, blocks_of
from jobs.digging import notice_rule
from jobs.models import CheckOff, Job, Result


@dataclass(frozen=True)
class JobLine:
    job: Job
    blocks: tuple[Block, ...]
    done: int
    total: int

    @property
    def urgent(self) -> bool:
        return any(block.urgent for block in self.blocks)


@dataclass(frozen=True)
class Week:
    monday: datetime.date | None  # none: no date yet
    lines: tuple[JobLine, ...]


def job_lines(jobs: QuerySet[Job]) -> list[JobLine]:
    """Each job with its blocks; a constant number of queries."""
    rows = list(jobs.defer("snapshot").prefetch_related("locates", "overrides", "bookings", "crew", "tasks"))
    results = _results(rows)
    today = Today(timezone.localdate(), notice_rule())
    return [_line(job, today, results.get(job.pk, {})) for job in rows]


def by_week(lines: Iterable[JobLine]) -> list[Week]:
    """Weeks in order of time, jobs without a date last."""
    ordered = sorted(
        lines,
        key=lambda line: (
            _monday(line) or datetime.date.max,
            line.job.start_on or datetime.date.max,
            line.job.pk,
        ),
    )
    return [Week(monday, tuple(group)) for monday, group in groupby(ordered, key=_monday)]


def _monday(line: JobLine) -> datetime.date | None:
    day = line.job.start_on
    return None if day is None else day - datetime.timedelta(days=day.weekday())


def _results(jobs: list[Job]) -> dict[int, dict[int, str]]:
    rows = CheckOff.objects.filter(task__job__in=jobs).order_by("at", "id")
    found: dict[int, dict[int, str]] = {}
    for job_id, task_id, result in rows.values_list("task__job_id", "task_id", "result"):
        found.setdefault(job_id, {})[task_id] = result
    return found


def _line(job: Job, today: Today, results: dict[int, str]) -> JobLine:
    done = sum(result == Result.DONE for result in results.values())
    return JobLine(job, tuple(blocks_of(job, today, results)), done, len(job.tasks.all()))
