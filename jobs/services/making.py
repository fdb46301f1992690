"""From an accepted quote to a job with its tasks."""

import logging

from django.db import transaction

from jobs.errors import NoSeal, Refused
from jobs.models import Booking, Job, Task, TaskKind, Trade
from jobs.snapshot import job_snapshot, read_snapshot
from jobs.task_list import TaskSpec, tasks_for
from office import audit
from office.models import Person
from quoting.models import Quote, Status

_log = logging.getLogger(__name__)


@transaction.atomic
def job_from_quote(*, quote: Quote, by: Person | None) -> Job:
    """The job of an accepted quote, made at the first call. Raises Refused, NoSeal."""
    if quote.status != Status.ACCEPTED:
        raise Refused("A job begins with an accepted quote. Record the customer's yes first.")
    Quote.objects.select_for_update().get(pk=quote.pk)
    found = Job.objects.filter(quote=quote).first()
    if found is not None:
        return found
    snapshot = job_snapshot(quote)
    job = Job(quote=quote, snapshot=snapshot)
    job.full_clean()
    job.save()
    specs = tasks_for(read_snapshot(snapshot))
    Task.objects.bulk_create(_task(job, order, spec) for order, spec in enumerate(specs, start=1))
    kinds = {spec.kind for spec in specs}
    Booking.objects.bulk_create(
        Booking(job=job, trade=trade) for trade in Trade if TaskKind(trade.value) in kinds
    )
    audit.record(by=by, verb="job.made", subject=job, detail={"quote": quote.reference, "tasks": len(specs)})
    return job


def make_job_after_accept(quote: Quote, by: Person | None) -> None:
    """For ``quoting.lifecycle.AFTER_ACCEPT``. An unsealed quote stays accepted; the job list shows it."""
    try:
        job_from_quote(quote=quote, by=by)
    except NoSeal:
        _log.warning("quote %s was accepted without a sealed plan: no job made", quote.pk)


def _task(job: Job, order: int, spec: TaskSpec) -> Task:
    return Task(job=job, order=order, kind=spec.kind, ref=spec.ref, title=spec.title[:200], digs=spec.digs)
