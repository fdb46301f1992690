"""Which jobs a person may open. Missing and forbidden look the same: not found.

A small firm sends whoever is free, so installers see every job that is not finished, their own
first. Owner and office see all.
"""

from django.db.models import Exists, OuterRef, QuerySet
from django.http import Http404

from jobs.models import Booking, Job, Locate, Task
from office.models import Person


def jobs_for(person: Person) -> QuerySet[Job]:
    """Jobs with what lists show, ``is_mine`` marking those of this person's crew."""
    crew = Job.crew.through.objects.filter(job=OuterRef("pk"), person=person)
    jobs = Job.objects.select_related("quote__site__customer").annotate(is_mine=Exists(crew))
    return jobs if person.is_office else jobs.filter(finished_at__isnull=True)


def get_job(person: Person, pk: int) -> Job:
    job = jobs_for(person).filter(pk=pk).prefetch_related("locates", "overrides", "bookings", "crew").first()
    if job is None:
        raise Http404("There is no such job.")
    return job


def get_task(person: Person, job_pk: int, pk: int) -> Task:
    task = Task.objects.filter(job=get_job(person, job_pk), pk=pk).select_related("job").first()
    if task is None:
        raise Http404("There is no such task.")
    return task


def get_locate(person: Person, job_pk: int, pk: int) -> Locate:
    locate = Locate.objects.filter(job=get_job(person, job_pk), pk=pk).first()
    if locate is None:
        raise Http404("There is no such locate request.")
    return locate


def get_booking(person: Person, job_pk: int, trade: str) -> Booking:
    booking = Booking.objects.filter(job=get_job(person, job_pk), trade=trade).first()
    if booking is None:
        raise Http404("This job waits for no such trade.")
    return booking
