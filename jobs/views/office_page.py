"""Putting the office page of a job together, with one form as somebody typed it."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from jobs.blocks import Today, blocks_of
from jobs.digging import digging_on, earliest_start, notice_rule
from jobs.errors import Refused
from jobs.forms import BookingForm, LocateForm, OverrideForm, ScheduleForm
from jobs.models import Booking, Job, Locate
from jobs.task_state import TaskState, task_states
from jobs.working_days import clear_from
from office.models import Person
from office.versions import Clash
from parts.clash import ClashRow, clash_rows


@dataclass
class OfficeForms:
    """The forms that were typed; all others show what stands."""

    schedule: ScheduleForm | None = None
    new_locate: LocateForm | None = None
    locates: dict[int, LocateForm] = field(default_factory=dict)
    override: OverrideForm | None = None
    bookings: dict[str, BookingForm] = field(default_factory=dict)
    closing: str = ""
    clash: Job | Locate | Booking | None = None
    clashed_form: forms.Form | None = None


def add_refusal(form: forms.Form, error: Refused | ValidationError) -> int:
    """Put the refusal beside its field; the status to answer with."""
    if isinstance(error, Refused):
        form.add_error(error.field, error.sentence)
        return 400
    if isinstance(error, Clash):
        form.add_error(None, error.messages[0])
        return 409
    for name, sentences in getattr(error, "message_dict", {"__all__": error.messages}).items():
        form.add_error(name if name in form.fields else None, sentences)
    return 400


def render_office(
    request: HttpRequest, job: Job, typed: OfficeForms | None = None, status: int = 200
) -> HttpResponse:
    typed = typed or OfficeForms()
    today, rule = timezone.localdate(), notice_rule()
    states = task_states(job)
    results = {state.task.pk: state.history[-1].result for state in states if state.history}
    context: dict[str, Any] = {
        "job": job,
        "digging": digging_on(job, today),
        "blocks": blocks_of(job, Today(today, rule), results),
        "rule": rule,
        "if_today": clear_from(today, rule),
        "earliest": earliest_start(job, today, rule),
        "schedule": typed.schedule or ScheduleForm(initial=_schedule_of(job)),
        "new_locate": typed.new_locate or LocateForm(initial={"placed_on": today}),
        "locates": [
            (locate, typed.locates.get(locate.pk) or _locate_form(locate)) for locate in job.locates.all()
        ],
        "override": typed.override or OverrideForm(initial={"last_day": today}),
        "bookings": [
            (booking, typed.bookings.get(booking.trade) or _booking_form(booking))
            for booking in job.bookings.all()
        ],
        "closing": typed.closing,
        "history": _history(states),
        "done": sum(state.result == "done" for state in states),
        "total": len(states),
        "problems": [state for state in states if state.result in ("problem", "short")],
    }
    _name_fields_apart(context)
    if typed.clash is not None and typed.clashed_form is not None:
        context |= _clash(typed.clash, typed.clashed_form)
    return render(request, "jobs/office.html", context, status=status)


def _name_fields_apart(context: dict[str, Any]) -> None:
    """Each form its own ids, so that every label belongs to one control."""
    named = {
        "schedule": context["schedule"],
        "locate": context["new_locate"],
        "override": context["override"],
    }
    named |= {f"locate-{locate.pk}": form for locate, form in context["locates"]}
    named |= {booking.trade: form for booking, form in context["bookings"]}
    for name, form in named.items():
        form.auto_id = f"{name}-%s"


def _schedule_of(job: Job) -> dict[str, Any]:
    crew = [person.pk for person in job.crew.all()]
    return {"start_on": job.start_on, "crew": crew, "version": job.version}


def _locate_form(locate: Locate) -> LocateForm:
    names = list(LocateForm.base_fields)
    return LocateForm(initial={name: getattr(locate, name) for name in names})


def _booking_form(booking: Booking) -> BookingForm:
    return BookingForm(initial={name: getattr(booking, name) for name in BookingForm.base_fields})


def _clash(current: Job | Locate | Booking, form: forms.Form) -> dict[str, Any]:
    """What stands beside what was typed; saving again then begins from what stands."""
    if isinstance(current, Job):
        rows = _schedule_rows(current, form)
    else:
        stored = _locate_form(current) if isinstance(current, Locate) else _booking_form(current)
        rows = clash_rows(form, stored)
    data = form.data.copy()  # type: ignore[attr-defined]  # a QueryDict
    data["version"] = str(current.version)
    form.data = data
    return {"clash_rows": rows, "clashed_form": form}


def _schedule_rows(current: Job, form: forms.Form) -> list[ClashRow]:
    typed = form.cleaned_data
    pairs = [
        ("Start", current.start_on, typed["start_on"]),
        ("Crew", _names(current.crew.all()), _names(typed["crew"])),
    ]
    return [ClashRow(label, str(one or "—"), str(two or "—")) for label, one, two in pairs if one != two]


def _names(people: Iterable[Person]) -> str:
    return ", ".join(sorted(person.name for person in people))


def _history(states: list[TaskState]) -> list[Any]:
    """The last entries from the site, newest first."""
    entries = [entry for state in states for entry in state.history]
    return sorted(entries, key=lambda entry: entry.at, reverse=True)[:40]
