"""The form of a site visit: its figures, its flow tests and its heights."""

from collections.abc import Iterator, Mapping
from typing import Any

from django import forms
from django.forms import BaseFormSet, formset_factory
from django.utils import timezone

from hydraulics.catalogue import Catalogue, MeterPart
from hydraulics.units import Quantity
from sites.models.visit import MATERIALS
from sites.quantity_field import QuantityField
from sites.readings import Bucket, Gauge, Height, VisitData

MAX_ROWS = 40
ORDER = [
    "visited_on", "visited_at", "measured_by", "weather", "static", "static_tap", "connection_z",
    "meter", "meter_read", "service_material", "service_bore", "service_length",
]  # fmt: skip
COMPARE = {"metric": "30 L/min", "us": "8 gpm"}


class VisitForm(forms.Form):
    """Date and people, pressure, meter and service pipe. ``system`` says what bare numbers mean."""

    began_from = forms.IntegerField(widget=forms.HiddenInput, required=False)
    visited_on = forms.DateField(
        label="Date", widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
    )
    visited_at = forms.TimeField(
        label="Time of day", required=False, help_text="Pressure differs by the hour.",
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
    )  # fmt: skip
    measured_by = forms.CharField(label="Who measured", max_length=150)
    weather = forms.CharField(max_length=120, required=False)
    static_tap = forms.CharField(
        label="Read at which tap", max_length=120, required=False, help_text="Heights count from this tap."
    )
    meter_read = forms.CharField(
        label="What stands on the meter", max_length=80, required=False, help_text="Size, Q3, make year"
    )
    service_material = forms.ChoiceField(label="Service pipe", choices=MATERIALS, initial="unknown")
    remarks = forms.CharField(
        required=False, max_length=5000, widget=forms.Textarea(attrs={"rows": 3}),
        help_text="What the plan has to respect: future works, private drains and cables, roots, dog.",
    )  # fmt: skip

    def __init__(self, *args: Any, system: str, parts: Catalogue, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["static"] = QuantityField(
            kind="pressure", system=system, label="Static pressure", required=False,
            help_text="Every tap shut. Without it no plan can be checked.",
        )  # fmt: skip
        self.fields["service_bore"] = QuantityField(
            kind="bore", system=system, label="Inside diameter (bore)", required=False,
            help_text="Not the outside: that is the string round the pipe, divided by π.",
        )  # fmt: skip
        self.fields["service_length"] = QuantityField(
            kind="length", system=system, label="Length, main to tap", required=False
        )
        self.fields["connection_z"] = QuantityField(
            kind="length", system=system, label="Connection above the tap", required=False,
            help_text="Where the irrigation will join. Below the tap with a minus.",
        )  # fmt: skip
        self.fields["compare"] = QuantityField(
            kind="flow", system=system, label="Compare the bucket with a flow of", required=False,
            initial=COMPARE["us" if system == "us" else "metric"], help_text="To compare; it is not kept.",
        )  # fmt: skip
        meters = [(part.code, part.label) for part in parts.values() if isinstance(part, MeterPart)]
        self.fields["meter"] = forms.ChoiceField(
            label="Meter", required=False, choices=[("", "not known, or not in the parts book"), *meters]
        )
        self.order_fields(ORDER)
        self.initial.setdefault("visited_on", timezone.localdate())


class RowForm(forms.Form):
    """A row counts when one of its figures is filled; then the others must be too."""

    figures: tuple[str, ...] = ()

    def __init__(self, *args: Any, system: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.system = system

    def is_filled(self) -> bool:
        return any(str(self.data.get(self.add_prefix(name), "")).strip() for name in self.figures)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if self.is_filled():
            for name in self.figures:
                if name not in self.errors and cleaned.get(name) in (None, ""):
                    self.add_error(name, "This is missing. Fill it in, or clear the row.")
        return cleaned

    def complete(self) -> bool:
        cleaned: Mapping[str, Any] = getattr(self, "cleaned_data", {})
        return all(cleaned.get(name) not in (None, "") for name in self.figures)


class BucketForm(RowForm):
    figures = ("volume", "fill")
    tap = forms.CharField(label="Tap", max_length=120, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["volume"] = QuantityField(
            kind="volume", system=self.system, label="Volume to the mark", required=False
        )
        self.fields["fill"] = QuantityField(kind="time", label="Time to fill", required=False)
        self.order_fields(["volume", "fill", "tap"])

    def reading(self) -> Bucket:
        data = self.cleaned_data
        return Bucket(data["volume"], data["fill"], data.get("tap", ""))


class GaugeForm(RowForm):
    figures = ("flow", "residual")
    tap = forms.CharField(label="Tap", max_length=120, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["flow"] = QuantityField(
            kind="flow", system=self.system, label="Flow that ran", required=False
        )
        self.fields["residual"] = QuantityField(
            kind="pressure", system=self.system, label="Residual pressure", required=False
        )
        self.order_fields(["flow", "residual", "tap"])

    def reading(self) -> Gauge:
        data = self.cleaned_data
        return Gauge(data["flow"], data["residual"], data.get("tap", ""))


class HeightForm(RowForm):
    figures = ("place", "height")
    place = forms.CharField(label="Place", max_length=120, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["height"] = QuantityField(
            kind="length", system=self.system, label="Above the tap", required=False
        )

    def reading(self) -> Height:
        return Height(self.cleaned_data["place"], self.cleaned_data["height"])


def _rows(form: type[RowForm]) -> type[BaseFormSet]:
    return formset_factory(form, extra=0, max_num=MAX_ROWS, absolute_max=MAX_ROWS)


BucketRows, GaugeRows, HeightRows = _rows(BucketForm), _rows(GaugeForm), _rows(HeightForm)


def filled(rows: BaseFormSet) -> Iterator[tuple[int, Any]]:
    """Complete rows by their place in the form."""
    for place, form in enumerate(rows.forms):
        if form.is_filled() and form.complete():
            yield place, form.reading()


def visit_data(form: VisitForm, buckets: BaseFormSet, gauges: BaseFormSet, heights: BaseFormSet) -> VisitData:
    """The readings, from what could be read of the form."""
    data = form.cleaned_data
    figures: dict[str, Quantity | None] = {
        name: data.get(name) for name in ("static", "service_bore", "service_length", "connection_z")
    }
    return VisitData(
        visited_on=data.get("visited_on") or timezone.localdate(),
        visited_at=data.get("visited_at"),
        measured_by=data.get("measured_by", ""),
        weather=data.get("weather", ""),
        static_tap=data.get("static_tap", ""),
        buckets=tuple(reading for _, reading in filled(buckets)),
        gauges=tuple(reading for _, reading in filled(gauges)),
        heights=tuple(reading for _, reading in filled(heights)),
        meter=data.get("meter", ""),
        meter_read=data.get("meter_read", ""),
        service_material=data.get("service_material", "unknown"),
        remarks=data.get("remarks", ""),
        **figures,
    )
