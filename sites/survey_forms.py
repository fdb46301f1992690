"""The rows of readings on the ground, each read to a row of the survey document."""

import re
from typing import Any

from django import forms
from django.forms import BaseFormSet, formset_factory
from django.forms.utils import ErrorDict
from django.http import QueryDict

from sites.survey_fields import BearingField, LabelField, LengthField, NameField, PointsField, Typed, WayField

MAX_ROWS, MAX_LEGS, MAX_WALKS = 120, 60, 8
SIDES = [("right", "right"), ("left", "left")]
# becomes:kind, as it is stored in two fields
BECOMES = [
    ("Watered", [
        ("area:turf", "lawn"), ("area:bed", "bed"), ("area:hedge", "hedge"),
        ("area:vegetables", "vegetables"), ("area:pots", "pots"),
    ]),
    ("Not watered", [
        ("surface:building", "building"), ("surface:paving", "paving"), ("surface:water", "water"),
        ("surface:tree", "tree"), ("surface:future_work", "future work"), ("surface:keep_out", "keep out"),
    ]),
    ("Edges", [
        ("boundary:fence", "fence along these points"), ("boundary:neighbour", "property line, all round"),
    ]),
    ("Buried along these points", [
        ("service:gas", "gas"), ("service:electric", "electric cable"), ("service:water", "water pipe"),
        ("service:telecom", "telecom cable"), ("service:sewer", "sewer"), ("service:drain", "drain"),
        ("service:future_drain", "future drain"),
    ]),
]  # fmt: skip
# both tapes in one field: 15.52 25.00 R, or with units 50' 11" ; 82' 3" R
_TWO_BARE = re.compile(r"\s*([\d.,]{1,20})\s+([\d.,]{1,20})(?:\s+([lLrR])[a-zA-Z]*)?\s*")
_TWO_WITH_UNITS = re.compile(r"\s*([^;]{1,38}?)\s*;\s*([^;]{1,38}?)(?:\s+([lLrR])(?:eft|ight)?)?\s*")


class ReadingForm(forms.Form):
    """A row counts when one of its figures is filled; then the ``needed`` fields must be too."""

    figures: tuple[str, ...] = ()
    needed: tuple[str, ...] = ()
    quick: tuple[str, ...] = ()  # where Enter stops; none: at the figures

    def __init__(self, *args: Any, system: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.system = system
        self.notes: list[str] = []
        self.build()
        for name in self.figures:
            self.fields[name].widget.attrs["data-figure"] = "1"
        for name in self.quick or self.figures:
            self.fields[name].widget.attrs["data-quick"] = "1"

    def build(self) -> None:
        """Fields whose unit the site decides."""

    def is_filled(self) -> bool:
        return any(str(self.data.get(self.add_prefix(name), "")).strip() for name in self.figures)

    def full_clean(self) -> None:
        # a row that is as it was offered counts too, and a blank one is not looked at
        self.empty_permitted = False
        if self.is_bound and not self.is_filled():
            self._errors, self.cleaned_data = ErrorDict(), {}
        else:
            super().full_clean()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if self.is_filled():
            for name in self.needed:
                if name not in self.errors and cleaned.get(name) in (None, "", []):
                    self.add_error(name, "This is missing. Fill it in, or clear the row.")
        return cleaned

    def is_complete(self) -> bool:
        return self.is_filled() and not self.errors

    def row(self) -> Typed:
        """The row of the document, without what is blank."""
        return {name: value for name, value in self.cleaned_data.items() if value not in (None, "", {})}


class MarkForm(ReadingForm):
    figures = ("distance", "east", "north", "label", "bearing")
    needed = ("name",)
    quick = ("distance",)
    name = NameField(label="Mark")
    off = NameField(label="From")
    bearing = BearingField(label="Bearing")
    label = LabelField(label="What it is")

    def build(self) -> None:
        self.fields["distance"] = LengthField(system=self.system, label="Distance")
        self.fields["east"] = LengthField(system=self.system, label="or east", signed=True)
        self.fields["north"] = LengthField(system=self.system, label="and north", signed=True)
        self.order_fields(["name", "off", "distance", "bearing", "east", "north", "label"])
        self.fields["bearing"].widget.attrs["placeholder"] = "E"

    def is_filled(self) -> bool:
        """The first mark counts by its name alone: it is where the others are measured from."""
        is_first = self.prefix == "mark-0" and bool(str(self.data.get(self.add_prefix("name"), "")).strip())
        return is_first or super().is_filled()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        by_distance, by_coordinates = cleaned.get("distance"), cleaned.get("east") or cleaned.get("north")
        if by_distance and by_coordinates:
            self.add_error("distance", "Give either the distance, or east and north.")
        if by_distance and not cleaned.get("off") and "off" not in self.errors:
            self.add_error("off", "From which mark? Name it.")
        return cleaned

    def row(self) -> Typed:
        row = super().row()
        if "distance" not in row:
            row.pop("off", None)
            row.pop("bearing", None)
        return row


class TieForm(ReadingForm):
    figures = ("first_tape", "second_tape")
    needed = ("point", "first", "first_tape", "second", "second_tape")
    point = NameField(label="Point")
    first = NameField(label="From")
    second = NameField(label="and from")
    side = forms.ChoiceField(label="Side", choices=SIDES)

    def build(self) -> None:
        self.fields["first_tape"] = LengthField(system=self.system, label="Tape")
        self.fields["second_tape"] = LengthField(system=self.system, label="Tape")
        self.order_fields(["point", "first", "first_tape", "second", "second_tape", "side"])


class OffsetForm(ReadingForm):
    figures = ("chainage", "offset")
    needed = ("point", "start", "end", "chainage", "offset")
    point = NameField(label="Point")
    start = NameField(label="Line from")
    end = NameField(label="to")
    side = forms.ChoiceField(label="Side", choices=SIDES)

    def build(self) -> None:
        self.fields["chainage"] = LengthField(system=self.system, label="Along", signed=True)
        self.fields["offset"] = LengthField(system=self.system, label="Square off")
        self.order_fields(["point", "start", "end", "chainage", "offset", "side"])


class LegForm(ReadingForm):
    figures = ("length", "way")
    needed = ("point", "length")
    point = NameField(label="To point")
    way = WayField(label="Bearing or turn")

    def build(self) -> None:
        self.fields["length"] = LengthField(system=self.system, label="Length")
        self.order_fields(["point", "length", "way"])
        self.fields["way"].widget.attrs["placeholder"] = "N26E, 116, L, R90"

    def is_filled(self) -> bool:
        return bool(str(self.data.get(self.add_prefix("length"), "")).strip())

    def row(self) -> Typed:
        row = super().row()
        return {**row.pop("way", {}), **row}


class WalkForm(ReadingForm):
    start = NameField(label="Walk from")
    closes_on = NameField(label="Ends on")
    by_wheel = forms.BooleanField(label="by wheel", required=False, initial=True)
    compass_rule = forms.BooleanField(label="share the misclosure out", required=False)

    def is_filled(self) -> bool:
        return True


class TapeForm(ReadingForm):
    figures = ("first", "second", "tape")
    needed = ("first", "second", "tape")
    first = NameField(label="From")
    second = NameField(label="to")

    def build(self) -> None:
        self.fields["tape"] = LengthField(system=self.system, label="Tape")


class OutlineForm(ReadingForm):
    figures = ("points",)
    needed = ("points",)
    id = NameField(widget=forms.HiddenInput)
    points = PointsField(label="Points in order")
    becomes = forms.ChoiceField(label="What it is", choices=BECOMES)
    label = LabelField(label="Name")

    def build(self) -> None:
        self.fields["depth"] = LengthField(system=self.system, label="Depth, if buried")
        self.fields["points"].widget.attrs["placeholder"] = "1-4"

    def row(self) -> Typed:
        row = super().row()
        becomes, kind = row.pop("becomes").split(":")
        return {**row, "becomes": becomes, "kind": kind}


class WheelForm(ReadingForm):
    figures = ("taped", "shown", "way_round")

    def build(self) -> None:
        self.fields["taped"] = LengthField(system=self.system, label="Taped length")
        self.fields["shown"] = LengthField(system=self.system, label="The wheel shows")
        self.fields["way_round"] = LengthField(system=self.system, label="Way round by wheel")
        self.fields["round_what"] = forms.IntegerField(
            label="Round outline", required=False, min_value=1, max_value=MAX_ROWS,
            widget=forms.NumberInput(attrs={"placeholder": "1"}),
        )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        for name, other in (("taped", "shown"), ("shown", "taped")):
            if cleaned.get(other) and not cleaned.get(name) and name not in self.errors:
                self.add_error(name, "This is missing. One says nothing without the other.")
        return cleaned


def _rows(form: type[ReadingForm], most: int = MAX_ROWS) -> type[BaseFormSet]:
    return formset_factory(form, extra=0, max_num=most, absolute_max=most)


ROWS: dict[str, type[BaseFormSet]] = {
    "mark": _rows(MarkForm), "tie": _rows(TieForm), "offset": _rows(OffsetForm),
    "tape": _rows(TapeForm), "outline": _rows(OutlineForm), "walk": _rows(WalkForm, MAX_WALKS),
}  # fmt: skip
LegRows = _rows(LegForm, MAX_LEGS)


def with_tapes_split(posted: QueryDict) -> QueryDict:
    """Both tapes of a tie, typed into the first field, in the fields where they belong."""
    data = posted.copy()
    for name in posted:
        found = re.fullmatch(r"tie-(\d{1,3})-first_tape", name)
        other = f"tie-{found[1]}-second_tape" if found else ""
        if not found or str(data.get(other, "")).strip():
            continue
        text = str(data.get(name, ""))[:120]
        parts = _TWO_BARE.fullmatch(text) or _TWO_WITH_UNITS.fullmatch(text)
        if parts:
            data[name], data[other] = parts[1], parts[2]
            if parts[3]:
                data[f"tie-{found[1]}-side"] = "left" if parts[3] in "lL" else "right"
    return data
