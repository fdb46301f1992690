"""The installer's pages."""

import dataclasses
from typing import Any

from django.contrib.auth.views import redirect_to_login
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.safestring import mark_safe
from django.views.decorators.cache import cache_control
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_POST, require_safe

from jobs import cautions
from jobs.access import get_job, get_task
from jobs.errors import Refused
from jobs.forms import CheckOffForm
from jobs.models import Job, Result, Task
from jobs.phone_page import PhonePage, phone_page, with_error
from jobs.plan_view import ZOOMS, chosen_layers, chosen_zoom, layer_links, plan_svg, small_plan_svg
from jobs.services import Entry
from jobs.services import check_off as keep_check_off
from office.access import person_of, staff_only

_KEEP_PLAN_S = 600
_LONGEST_NOTE = 500


@require_safe
@gzip_page
@staff_only
def job_page(request: HttpRequest, pk: int) -> HttpResponse:
    job = get_job(person_of(request), pk)
    return render(request, "jobs/job.html", _context(job, phone_page(job)))


@require_safe
@gzip_page
@staff_only
def plan_page(request: HttpRequest, pk: int) -> HttpResponse:
    job = get_job(person_of(request), pk)
    zoom, layers = chosen_zoom(request.GET), chosen_layers(request.GET)
    context = {
        "job": job,
        "svg": mark_safe(plan_svg(job, zoom, layers)),  # noqa: S308 - every text in it is escaped by to_svg
        "zoom": zoom,
        "zooms": ZOOMS,
        "layer_links": layer_links(zoom, layers),
    }
    return render(request, "jobs/plan.html", context)


@require_safe
@gzip_page
@staff_only
@cache_control(private=True, max_age=_KEEP_PLAN_S)
def plan_image(request: HttpRequest, pk: int) -> HttpResponse:
    """The small plan of the job's page, by itself so that the phone fetches it once."""
    svg = small_plan_svg(get_job(person_of(request), pk))
    return HttpResponse(svg, content_type="image/svg+xml")


@require_POST
def check_off(request: HttpRequest, pk: int, task_pk: int) -> HttpResponseBase:
    if not (request.user.is_authenticated or request.htmx):  # type: ignore[attr-defined]  # set by htmx's middleware
        return redirect_to_login(_task_url(pk, task_pk))  # where the task stands, not where it is sent
    return _check_off(request, pk, task_pk)


@staff_only
def _check_off(request: HttpRequest, pk: int, task_pk: int) -> HttpResponse:
    task = get_task(person_of(request), pk, task_pk)
    form = CheckOffForm(request.POST)
    if not form.is_valid():
        return _wrong(
            request, task, form, " ".join(str(e) for errors in form.errors.values() for e in errors), 400
        )
    try:
        keep_check_off(task=task, by=person_of(request), entry=_entry(form.cleaned_data))
    except Refused as refusal:
        return _wrong(request, task, form, refusal.sentence, 409)
    if request.htmx:  # type: ignore[attr-defined]  # set by htmx's middleware
        return _row(request, task, phone_page(task.job))
    return redirect(_task_url(pk, task_pk))


def _task_url(pk: int, task_pk: int) -> str:
    return f"{reverse('jobs:job', args=[pk])}#task-{task_pk}"


def _entry(data: dict[str, Any]) -> Entry:
    return Entry(data["client_id"], Result(data["result"]), data["note"], data["device_at"])


def _wrong(request: HttpRequest, task: Task, form: CheckOffForm, sentence: str, status: int) -> HttpResponse:
    """The row with what is wrong in it, what was typed kept; alone for htmx, else in its page."""
    page = phone_page(task.job)
    typed = str(form.data.get("note", "")).replace("\x00", "")[:_LONGEST_NOTE]
    row = dataclasses.replace(page.row_of(task), error=sentence, typed_note=typed)
    page = with_error(page, row)
    if request.htmx:  # type: ignore[attr-defined]  # set by htmx's middleware
        return _row(request, task, page, status)
    return render(request, "jobs/job.html", _context(task.job, page), status=status)


def _row(request: HttpRequest, task: Task, page: PhonePage, status: int = 200) -> HttpResponse:
    context = {"row": page.row_of(task), "section": page.section_of(task), **_context(task.job, page)}
    return render(request, "jobs/_row_answer.html", context, status=status)


def _context(job: Job, page: PhonePage) -> dict[str, Any]:
    return {
        "job": job,
        "page": page,
        "tasks_url": reverse("jobs:check_off", args=[job.pk, 0]).removesuffix("0/"),  # once, not per row
        "local_first": cautions.LOCAL_FIRST,
        "struck": cautions.STRUCK,
    }
