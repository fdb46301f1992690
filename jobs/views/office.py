"""The office side of one job."""

from typing import Any, cast

from django import forms
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from jobs.access import get_booking, get_job, get_locate
from jobs.errors import Refused
from jobs.forms import BookingForm, LocateForm, OverrideForm, ScheduleForm, VersionForm
from jobs.models import Booking, Job, Locate
from jobs.services import (
    LocateTerms,
    Schedule,
    amend_locate,
    finish_job,
    override_dig,
    plan_job,
    record_locate,
    reopen_job,
    save_booking,
)
from jobs.views.office_page import OfficeForms, add_refusal, render_office
from jobs.working_days import day_words
from office.access import office_only, person_of
from office.versions import Clash


@require_safe
@office_only
def office_page(request: HttpRequest, pk: int) -> HttpResponse:
    return render_office(request, get_job(person_of(request), pk))


@require_POST
@office_only
def schedule(request: HttpRequest, pk: int) -> HttpResponse:
    job = get_job(person_of(request), pk)
    form = ScheduleForm(request.POST)
    if form.is_valid():
        data = form.cleaned_data
        plan = Schedule(data["start_on"], tuple(data["crew"]))
        try:
            plan_job(job=job, schedule=plan, began_from=data["version"], by=person_of(request))
        except (Refused, ValidationError) as error:
            return _again(request, job, OfficeForms(schedule=form), form, error)
        return _saved(request, job, "Saved start and crew.")
    return render_office(request, job, OfficeForms(schedule=form), 400)


@require_POST
@office_only
def locate_add(request: HttpRequest, pk: int) -> HttpResponse:
    job = get_job(person_of(request), pk)
    form = LocateForm(request.POST)
    if form.is_valid():
        try:
            locate = record_locate(job=job, terms=_terms(form), by=person_of(request))
        except (Refused, ValidationError) as error:
            return _again(request, job, OfficeForms(new_locate=form), form, error)
        return _saved(request, job, f"Recorded. Digging may start on {day_words(locate.clear_from)}.")
    return render_office(request, job, OfficeForms(new_locate=form), 400)


@require_POST
@office_only
def locate_amend(request: HttpRequest, pk: int, locate_pk: int) -> HttpResponse:
    job = get_job(person_of(request), pk)
    locate = get_locate(person_of(request), pk, locate_pk)
    form = LocateForm(request.POST)
    if form.is_valid():
        began_from = form.cleaned_data["version"] or 0
        try:
            amend_locate(locate=locate, terms=_terms(form), began_from=began_from, by=person_of(request))
        except (Refused, ValidationError) as error:
            return _again(request, job, OfficeForms(locates={locate.pk: form}), form, error)
        return _saved(request, job, "Saved the locate request.")
    return render_office(request, job, OfficeForms(locates={locate.pk: form}), 400)


@require_POST
@office_only
def override(request: HttpRequest, pk: int) -> HttpResponse:
    job = get_job(person_of(request), pk)
    form = OverrideForm(request.POST)
    if form.is_valid():
        try:
            override_dig(job=job, by=person_of(request), **form.cleaned_data)
        except (Refused, ValidationError) as error:
            return _again(request, job, OfficeForms(override=form), form, error)
        return _saved(request, job, "Digging is open without a valid locate. Name and reason are kept.")
    return render_office(request, job, OfficeForms(override=form), 400)


@require_POST
@office_only
def booking(request: HttpRequest, pk: int, trade: str) -> HttpResponse:
    job = get_job(person_of(request), pk)
    row = get_booking(person_of(request), pk, trade)
    form = BookingForm(request.POST)
    if form.is_valid():
        fields = dict(form.cleaned_data)
        began_from = fields.pop("version")
        try:
            save_booking(booking=row, fields=fields, began_from=began_from, by=person_of(request))
        except (Refused, ValidationError) as error:
            return _again(request, job, OfficeForms(bookings={trade: form}), form, error)
        return _saved(request, job, f"Saved: {row.get_trade_display().lower()}.")
    return render_office(request, job, OfficeForms(bookings={trade: form}), 400)


@require_POST
@office_only
def finish(request: HttpRequest, pk: int) -> HttpResponse:
    return _with_version(request, pk, finish_job, "The job is finished.")


@require_POST
@office_only
def reopen(request: HttpRequest, pk: int) -> HttpResponse:
    return _with_version(request, pk, reopen_job, "The job is open again.")


def _with_version(request: HttpRequest, pk: int, service: Any, sentence: str) -> HttpResponse:
    job = get_job(person_of(request), pk)
    form = VersionForm(request.POST)
    if not form.is_valid():
        return render_office(request, job, OfficeForms(closing="Reload the page and press again."), 400)
    try:
        service(job=job, began_from=form.cleaned_data["version"], by=person_of(request))
    except Refused as refusal:
        return render_office(request, job, OfficeForms(closing=refusal.sentence), 409)
    except Clash:
        words = "Somebody else changed this job in the meantime. Look again, then press once more."
        return render_office(request, get_job(person_of(request), pk), OfficeForms(closing=words), 409)
    return _saved(request, job, sentence)


def _terms(form: LocateForm) -> LocateTerms:
    return LocateTerms(**{name: value for name, value in form.cleaned_data.items() if name != "version"})


def _again(
    request: HttpRequest, job: Job, typed: OfficeForms, form: forms.Form, error: Refused | ValidationError
) -> HttpResponse:
    """The page with the form as it was typed, and what is wrong beside its field."""
    status = add_refusal(form, error)
    if isinstance(error, Clash):
        typed.clash = cast("Job | Locate | Booking", error.current)
        typed.clashed_form = form
    return render_office(request, get_job(person_of(request), job.pk), typed, status)


def _saved(request: HttpRequest, job: Job, sentence: str) -> HttpResponse:
    messages.success(request, sentence)
    return redirect("jobs:office", job.pk)
