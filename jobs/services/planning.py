"""When a job starts, who does it, which licensed trades come, when it is finished."""

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, field

from django.db import transaction
from django.utils import timezone

from jobs.digging import digging_on, earliest_start, notice_rule
from jobs.errors import Refused
from jobs.models import Booking, Job, Result, Task
from jobs.services.checking import tick
from jobs.task_state import latest_results
from jobs.working_days import day_words
from office import audit
from office.models import Person
from office.versions import save_version


@dataclass(frozen=True)
class Schedule:
    start_on: datetime.date | None
    crew: Sequence[Person] = field(default_factory=tuple)


@transaction.atomic
def plan_job(*, job: Job, schedule: Schedule, began_from: int, by: Person) -> Job:
    """Set start and crew. Raises Refused for a start before digging is allowed, Clash, ValidationError."""
    if schedule.start_on is not None and schedule.start_on != job.start_on:
        _refuse_early_start(job, schedule.start_on)
    saved = save_version(job, began_from=began_from, fields={"start_on": schedule.start_on})
    saved.crew.set(schedule.crew)
    detail = {"start_on": str(schedule.start_on or ""), "crew": sorted(person.pk for person in schedule.crew)}
    audit.record(by=by, verb="job.planned", subject=saved, detail=detail)
    return saved


@transaction.atomic
def save_booking(*, booking: Booking, fields: dict[str, object], began_from: int, by: Person) -> Booking:
    """Book a licensed trade, or record that it is done. Raises Refused, Clash, ValidationError."""
    done_on = fields.get("done_on")
    if done_on and not fields.get("licence_number"):
        raise Refused("Enter the licence number of whoever did it.", "licence_number")
    if isinstance(done_on, datetime.date) and done_on > timezone.localdate():
        raise Refused("Work that is done cannot have a date in the future.", "done_on")
    newly_done = bool(done_on) and booking.done_on is None
    saved = save_version(booking, began_from=began_from, fields=fields)
    if newly_done:
        _tick_trade(saved, by)
    detail = {name: str(value or "") for name, value in fields.items()}
    audit.record(by=by, verb=f"job.{saved.trade}_booked", subject=saved.job, detail=detail)
    return saved


@transaction.atomic
def finish_job(*, job: Job, began_from: int, by: Person) -> Job:
    """Close a job whose every task is done. Raises Refused with how many are not."""
    results = latest_results(job)
    left = sum(results.get(pk) != Result.DONE for pk in job.tasks.values_list("pk", flat=True))
    if left:
        tasks = "1 task is" if left == 1 else f"{left} tasks are"
        raise Refused(f"{tasks} not done yet. Check them off, or take up the problems first.")
    saved = save_version(job, began_from=began_from, fields={"finished_at": timezone.now()})
    audit.record(by=by, verb="job.finished", subject=saved)
    return saved


@transaction.atomic
def reopen_job(*, job: Job, began_from: int, by: Person) -> Job:
    saved = save_version(job, began_from=began_from, fields={"finished_at": None})
    audit.record(by=by, verb="job.reopened", subject=saved)
    return saved


def _refuse_early_start(job: Job, start_on: datetime.date) -> None:
    earliest = earliest_start(job, timezone.localdate(), notice_rule())
    if start_on < earliest and digging_on(job, start_on).state != "overridden":
        raise Refused(
            f"Buried services will not be located by then. Digging may start on {day_words(earliest)}.",
            "start_on",
        )


def _tick_trade(booking: Booking, by: Person) -> None:
    results = latest_results(booking.job)
    for task in Task.objects.filter(job=booking.job, kind=booking.trade):
        if results.get(task.pk) != Result.DONE:
            tick(task=task, by=by, note=f"{booking.firm} {booking.licence_number}".strip())
