"""What people type about a job."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db import models

from jobs.models import Booking, DigOverride, Holiday, Locate, Result
from office.models import Person


class _DateInput(forms.DateInput):
    input_type = "date"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(format="%Y-%m-%d", **kwargs)


def _date(model: type[models.Model], name: str, **kwargs: Any) -> forms.DateField:
    label = str(model._meta.get_field(name).verbose_name)  # type: ignore[union-attr]  # a concrete field
    return forms.DateField(label=label[0].upper() + label[1:], widget=_DateInput(), **kwargs)


class CheckOffForm(forms.Form):
    """Sent by a button of one task. ``client_id`` is made with the page, so that twice is once."""

    client_id = forms.UUIDField(
        error_messages={
            "required": "Reload the page and press again.",
            "invalid": "Reload the page and press again.",
        }
    )
    result = forms.ChoiceField(
        choices=Result.choices,
        error_messages={
            "required": "Press one of the buttons.",
            "invalid_choice": "Press one of the buttons.",
        },
    )
    note = forms.CharField(
        max_length=500,
        required=False,
        error_messages={
            "max_length": "The note is too long: 500 letters at most. Shorten it and press again."
        },
    )
    device_at = forms.DateTimeField(
        required=False, input_formats=["%Y-%m-%dT%H:%M:%S.%fZ", "%Y-%m-%dT%H:%M:%SZ"]
    )


class _CrewField(forms.ModelMultipleChoiceField):
    """People by id. An id beyond what a database counts is nobody's, and would fail in the query."""

    def clean(self, value: Any) -> Any:
        for pk in value or ():
            if len(str(pk)) > 15:
                raise ValidationError(self.error_messages["invalid_choice"] % {"value": str(pk)[:15]})
        return super().clean(value)


class ScheduleForm(forms.Form):
    start_on = forms.DateField(label="Start", required=False, widget=_DateInput())
    crew = _CrewField(
        Person.objects.none(), required=False, widget=forms.CheckboxSelectMultiple, label="Crew"
    )
    version = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        people = Person.objects.filter(is_active=True).order_by("role", "name")
        self.fields["crew"].queryset = people  # type: ignore[attr-defined]  # a model choice field


class LocateForm(forms.Form):
    reference = forms.CharField(label="Reference", max_length=60, help_text="As the locate service gave it")
    placed_on = _date(Locate, "placed_on")
    clear_from = _date(
        Locate, "clear_from", required=False, help_text="Leave empty to have the working days counted"
    )
    expires_on = _date(Locate, "expires_on", required=False, help_text="From the ticket; empty: by your rule")
    members = forms.CharField(
        label="Owners of buried lines",
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="One a line, with what each answered",
    )
    answers_complete = forms.BooleanField(
        label="All of them have marked or answered",
        required=False,
        help_text="Digging stays closed until then",
    )
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)


class OverrideForm(forms.Form):
    name = forms.CharField(label="Who takes responsibility", max_length=150)
    reason = forms.CharField(
        label="Why it is safe to dig without a valid locate",
        max_length=500,
        widget=forms.Textarea(attrs={"rows": 2}),
    )
    last_day = _date(DigOverride, "last_day")


class BookingForm(forms.Form):
    firm = forms.CharField(label="Firm or person", max_length=150, required=False)
    phone = forms.CharField(label="Phone", max_length=40, required=False)
    licence_number = forms.CharField(label="Licence number", max_length=60, required=False)
    booked_on = _date(Booking, "booked_on", required=False)
    done_on = _date(Booking, "done_on", required=False)
    note = forms.CharField(label="Note", max_length=500, required=False)
    version = forms.IntegerField(widget=forms.HiddenInput)


class VersionForm(forms.Form):
    version = forms.IntegerField()


class HolidayForm(forms.Form):
    date = _date(Holiday, "date")
    name = forms.CharField(label="Name", max_length=80)
