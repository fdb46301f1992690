"""An accepted quote becomes a job."""

import pytest
from django.urls import reverse

from jobs.errors import NoSeal, Refused
from jobs.models import Job, TaskKind
from jobs.services import job_from_quote, make_job_after_accept
from office.models import AuditEvent
from quoting.lifecycle import AFTER_ACCEPT, move
from quoting.models import Quote, SealedProposal, Status
from tests.jobs.makers import make_job, make_quote

pytestmark = pytest.mark.django_db


def kinds_of(job):
    return list(job.tasks.values_list("kind", flat=True))


def test_tasks_follow_the_sealed_plan(job):
    kinds = kinds_of(job)
    # the plain rectangle: 15 heads, 2 valves, a controller, 2 cables, 2 zones, marks A and B
    assert kinds.count(TaskKind.HEAD) == 15
    assert kinds.count(TaskKind.VALVE) == 2
    assert kinds.count(TaskKind.CABLE) == 2
    assert kinds.count(TaskKind.FLUSH) == 2
    assert kinds.count(TaskKind.BASE) == 1
    assert kinds.count(TaskKind.STAKE) >= 18
    assert kinds[:3] == [TaskKind.LOCATE, TaskKind.PLUMBER, TaskKind.ELECTRICIAN]
    assert kinds[-1] == TaskKind.WALK
    order = [TaskKind.STAKE, TaskKind.TRENCH, TaskKind.PIPE_TEST, TaskKind.HEAD, TaskKind.FLUSH]
    places = [kinds.index(kind) for kind in order]
    assert places == sorted(places)


def test_only_digging_waits_for_the_locate(job):
    assert set(job.tasks.filter(digs=True).values_list("kind", flat=True)) == {TaskKind.TRENCH}
    assert {booking.trade for booking in job.bookings.all()} == {"plumber", "electrician"}


def test_crossings_become_tasks():
    job = make_job("tests/plans/s3.json")
    assert job.tasks.filter(kind=TaskKind.SLEEVE, digs=True).count() == 1


def test_making_it_twice_gives_the_same_job():
    quote = make_quote()
    first, second = job_from_quote(quote=quote, by=None), job_from_quote(quote=quote, by=None)
    assert first.pk == second.pk
    assert AuditEvent.objects.filter(verb="job.made").count() == 1


def test_a_quote_that_nobody_accepted_is_refused():
    with pytest.raises(Refused, match="accepted"):
        job_from_quote(quote=make_quote(status=Status.ISSUED), by=None)
    with pytest.raises(NoSeal):
        job_from_quote(quote=make_quote(sealed=False), by=None)
    assert not Job.objects.exists()


def test_accepting_makes_the_job_in_the_same_move(clerk):
    assert make_job_after_accept in AFTER_ACCEPT
    quote = make_quote(status=Status.ISSUED)
    move(quote, Status.ACCEPTED, clerk)
    assert Job.objects.get().quote == quote


def test_an_unsealed_quote_is_still_accepted(clerk, clerk_client):
    quote = make_quote(status=Status.ISSUED, sealed=False)
    move(quote, Status.ACCEPTED, clerk)
    assert Quote.objects.get().status == Status.ACCEPTED
    assert not Job.objects.exists()
    page = clerk_client.get(reverse("jobs:list"))
    assert "has no job yet" in page.content.decode()


def test_the_office_makes_a_missing_job(clerk_client, installer_client):
    quote = make_quote()
    url = reverse("jobs:make", args=[quote.pk])
    assert installer_client.post(url).status_code == 403
    assert clerk_client.get(url).status_code == 405
    assert clerk_client.post(url).url == reverse("jobs:office", args=[Job.objects.get().pk])
    assert clerk_client.post(url).status_code == 302  # pressed twice
    assert Job.objects.count() == 1
    assert clerk_client.post(reverse("jobs:make", args=[999_999])).status_code == 404


def test_a_job_keeps_what_was_sealed(job):
    job.quote.plan.document = {}
    job.quote.plan.save()
    assert SealedProposal.objects.get().sealed["plan"]["layout"]["nodes"]
    assert len(Job.objects.get().snapshot["plan"]["layout"]["nodes"]) == 21
