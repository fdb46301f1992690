"""Checking tasks off, from the phone or from the office."""

import datetime
import uuid
from dataclasses import dataclass

from django.db import transaction
from django.utils import timezone

from jobs.digging import digging_on
from jobs.errors import Refused
from jobs.models import CheckOff, Job, Result, Task, TaskKind
from office import audit
from office.models import Person

LICENSED = (TaskKind.PLUMBER, TaskKind.ELECTRICIAN)
UNLICENSED = "Only licensed work counts here. The office enters the licence number first."
# A phone may have been without signal for a shift or two; a clock that says more is wrong.
_OLDEST = datetime.timedelta(days=14)
_AHEAD = datetime.timedelta(minutes=5)


@dataclass(frozen=True)
class Entry:
    """What the phone sends. ``id`` is made there, so that sending twice keeps it once."""

    id: uuid.UUID
    result: Result
    note: str = ""
    device_at: datetime.datetime | None = None


@transaction.atomic
def check_off(*, task: Task, by: Person, entry: Entry) -> tuple[CheckOff, bool]:
    """The kept check-off, and whether it is new. Raises Refused with what to do.

    A problem is always taken, whatever is locked or finished: it is what the office must hear.
    """
    Job.objects.select_for_update().get(pk=task.job_id)
    known = CheckOff.objects.filter(pk=entry.id).first()
    if known is not None:
        return _same(known, task, entry), False
    _refuse(task, entry)
    row = CheckOff(id=entry.id, task=task, result=entry.result, note=entry.note, by=by)
    row.device_at = _believable(entry.device_at)
    row.full_clean(validate_unique=False)
    row.save(force_insert=True)
    detail = {"task": task.title, "result": entry.result.value}
    audit.record(by=by, verb="job.checked_off", subject=task.job, detail=detail)
    return row, True


def tick(*, task: Task, by: Person, note: str = "") -> CheckOff:
    """Keep that a task is done because the office has recorded the fact elsewhere."""
    return CheckOff.objects.create(id=uuid.uuid4(), task=task, result=Result.DONE, note=note, by=by)


def _same(known: CheckOff, task: Task, entry: Entry) -> CheckOff:
    if known.task_id != task.pk or known.result != entry.result:
        raise Refused(
            "This entry was sent before and says something else. Reload the page and enter it again."
        )
    return known


def _refuse(task: Task, entry: Entry) -> None:
    if entry.result == Result.PROBLEM:
        return
    if task.job.finished_at is not None:
        raise Refused("This job is finished. Ask the office to open it again.")
    if entry.result != Result.DONE:
        return
    if task.kind == TaskKind.LOCATE:
        raise Refused("The office records the locate request, with its reference and dates.")
    if task.digs:
        _refuse_digging(task, entry)
    if task.kind in LICENSED:
        _refuse_unlicensed(task)


def _refuse_digging(task: Task, entry: Entry) -> None:
    """Judged by the day on which it was dug, where the phone's clock can be believed."""
    moment = _believable(entry.device_at) or timezone.now()
    digging = digging_on(task.job, timezone.localtime(moment).date())
    if not digging.is_open:
        raise Refused(f"Locked. {digging.sentence}")


def _refuse_unlicensed(task: Task) -> None:
    booking = task.job.bookings.filter(trade=task.kind).first()
    if booking is None or not booking.licence_number:
        raise Refused(UNLICENSED)


def _believable(moment: datetime.datetime | None) -> datetime.datetime | None:
    now = timezone.now()
    return moment if moment and now - _OLDEST <= moment <= now + _AHEAD else None
