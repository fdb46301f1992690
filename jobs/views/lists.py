"""The list of jobs, and making one that an accepted quote lacks."""

from typing import Any

from django.contrib import messages
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from jobs.access import jobs_for
from jobs.errors import NoSeal, Refused
from jobs.services import job_from_quote
from jobs.week_list import by_week, job_lines
from office.access import office_only, person_of, staff_only
from quoting.models import Quote, Status


@require_safe
@staff_only
def job_list(request: HttpRequest) -> HttpResponse:
    person = person_of(request)
    finished = person.is_office and request.GET.get("show") == "finished"
    lines = job_lines(jobs_for(person).filter(finished_at__isnull=not finished))
    context: dict[str, Any] = {"finished": finished}
    if person.is_office:
        context |= {"weeks": by_week(lines), "without_job": _accepted_without_job()}
        return render(request, "jobs/list.html", context)
    mine = [line for line in lines if line.job.is_mine]  # type: ignore[attr-defined]  # an annotation
    others = [line for line in lines if not line.job.is_mine]  # type: ignore[attr-defined]  # an annotation
    context |= {"mine": by_week(mine), "others": by_week(others)}
    return render(request, "jobs/list_phone.html", context)


@require_POST
@office_only
def make_job(request: HttpRequest, quote_pk: int) -> HttpResponse:
    quote = Quote.objects.filter(pk=quote_pk).first()
    if quote is None:
        raise Http404("There is no such quote.")
    try:
        job = job_from_quote(quote=quote, by=person_of(request))
    except Refused as refusal:
        messages.error(request, refusal.sentence)
    except NoSeal as error:
        messages.error(request, str(error))
    else:
        return redirect("jobs:office", job.pk)
    return redirect("jobs:list")


def _accepted_without_job() -> QuerySet[Quote]:
    accepted = Quote.objects.filter(status=Status.ACCEPTED, job__isnull=True)
    return accepted.select_related("site__customer")
