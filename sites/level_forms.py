"""Rows of a level book: heights that are known, falls along a line, readings of a hand level."""

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from django import forms
from django.forms import BaseFormSet, formset_factory

from hydraulics.errors import BadQuantity
from hydraulics.sentences import in_units_of
from hydraulics.units import Quantity
from sites.quantity_field import MAX_LENGTH, QuantityField, read_quantity, sentence
from sites.visit_forms import RowForm

MOST_ROWS = 100
MOST_STANDS = 50
# what a plan can hold
LARGEST_M = 500.0


class PointField(forms.RegexField):
    """The name of a point, offered from those that are placed."""

    def __init__(self, **kwargs: Any) -> None:
        attrs = {"list": "points", "autocomplete": "off", "maxlength": 20}
        super().__init__(
            regex=r"^[A-Za-z0-9][A-Za-z0-9_.\-]*$", max_length=20, required=False,
            widget=forms.TextInput(attrs=attrs),
            error_messages={"invalid": "Use letters, digits, point and dash only, such as P3."}, **kwargs,
        )  # fmt: skip


class HeightField(QuantityField):
    """A height or a reading, no larger than a plan can hold."""

    def __init__(self, *, system: str, **kwargs: Any) -> None:
        self.system = system
        super().__init__(kind="length", required=False, system=system, **kwargs)

    def clean(self, value: Any) -> Any:
        found: Quantity | None = super().clean(value)
        if found is not None and abs(found.value_si) > LARGEST_M:
            most = in_units_of(self.system, f"{LARGEST_M:.0f} m")
            raise forms.ValidationError(f"A height lies within {most} of the site's zero.")
        return found


class FallField(HeightField):
    """A height, or per cent of the way such as ``2 %``; the unit of the latter is ``%``."""

    def clean(self, value: Any) -> Any:
        text = " ".join(str(value or "").split())
        if not text.endswith("%"):
            return super().clean(value)
        if len(text) > MAX_LENGTH:
            raise forms.ValidationError(f"Use at most {MAX_LENGTH} characters.")
        return read_per_cent(text)


def read_per_cent(text: str) -> Quantity:
    """Per cent as a number, with its text. Raises ValidationError."""
    try:
        number = read_quantity(text.removesuffix("%").strip(), "length", "m")
    except BadQuantity as error:
        raise forms.ValidationError(sentence(str(error))) from None
    if abs(number.value_si) > 100:
        raise forms.ValidationError("A fall is at most 100 % of the way.")
    return Quantity(number.value_si, "%", text)


class SpotForm(RowForm):
    figures = ("point", "height")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["point"] = PointField(label="Point")
        self.fields["height"] = HeightField(system=self.system, label="Above the tap")

    def row(self) -> dict[str, Any]:
        return {"point": self.cleaned_data["point"], "height": _length(self.cleaned_data["height"])}


class FallForm(RowForm):
    figures = ("first", "second", "fall")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["first"] = PointField(label="From")
        self.fields["second"] = PointField(label="Down to")
        self.fields["fall"] = FallField(system=self.system, label="Falls by")

    def row(self) -> dict[str, Any]:
        data = self.cleaned_data
        ends = {"first": data["first"], "second": data["second"]}
        if data["fall"].unit == "%":
            return {**ends, "fall_pct": data["fall"].value_si, "fall_text": data["fall"].text}
        return {**ends, "fall": _length(data["fall"])}


class SightForm(RowForm):
    figures = ("stand", "point", "reading")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["stand"] = forms.IntegerField(
            label="Stand", min_value=1, max_value=MOST_STANDS, required=False
        )
        self.fields["point"] = PointField(label="Staff on")
        self.fields["reading"] = HeightField(system=self.system, label="Reading")

    def row(self) -> dict[str, Any]:
        data = self.cleaned_data
        return {"stand": data["stand"], "point": data["point"], "reading": _length(data["reading"])}


def _rows(form: type[RowForm]) -> type[BaseFormSet]:
    return formset_factory(form, extra=0, max_num=MOST_ROWS, absolute_max=MOST_ROWS)


ROWS: dict[str, type[BaseFormSet]] = {
    "spots": _rows(SpotForm), "falls": _rows(FallForm), "sights": _rows(SightForm),
}  # fmt: skip


def filled_rows(rows: BaseFormSet) -> Iterator[tuple[int, dict[str, Any]]]:
    """What complete rows say, each with its place in the form."""
    for place, form in enumerate(rows.forms):
        if form.is_filled() and form.complete():
            yield place, form.row()


def level_document(rows: dict[str, BaseFormSet]) -> tuple[dict[str, Any], dict[str, tuple[str, int]]]:
    """The LevelSurvey of the rows, and for each place in it the rows' kind and place in the form.

    Of the readings of a stand the first one is that on the known point.
    """
    document: dict[str, Any] = {"spots": [], "falls": [], "setups": []}
    places: dict[str, tuple[str, int]] = {}
    for kind in ("spots", "falls"):
        for number, (place, row) in enumerate(filled_rows(rows[kind])):
            document[kind].append(row)
            places[f"{kind}-{number}"] = (kind, place)
    sights = sorted(filled_rows(rows["sights"]), key=lambda found: found[1]["stand"])
    for stand, (_, group) in enumerate(groupby(sights, key=lambda found: found[1]["stand"])):
        (first, known), *others = group
        setup = {"known": known["point"], "known_reading": known["reading"], "sights": []}
        places[f"setups-{stand}"] = ("sights", first)
        for number, (place, row) in enumerate(others):
            setup["sights"].append({"point": row["point"], "reading": row["reading"]})
            places[f"setups-{stand}-sights-{number}"] = ("sights", place)
        document["setups"].append(setup)
    return document, places


def rows_of(document: dict[str, Any]) -> dict[str, list[dict[str, Any]]]:
    """The rows of the form that give this document, each figure as it was typed."""
    sights = []
    for stand, setup in enumerate(document.get("setups", []), start=1):
        known = {"point": setup["known"], "reading": setup["known_reading"]}
        sights += [
            {"stand": stand, "point": row["point"], "reading": row["reading"]["text"]}
            for row in (known, *setup["sights"])
        ]
    return {
        "spots": [
            {"point": row["point"], "height": row["height"]["text"]} for row in document.get("spots", [])
        ],
        "falls": [
            {"first": row["first"], "second": row["second"], "fall": _fall_text(row)}
            for row in document.get("falls", [])
        ],
        "sights": sights,
    }


def _fall_text(row: dict[str, Any]) -> str:
    fall = row.get("fall")
    if fall:
        return str(fall["text"])
    return row.get("fall_text") or (f"{row['fall_pct']:g} %" if row.get("fall_pct") is not None else "")


def _length(found: Quantity) -> dict[str, Any]:
    return {"text": found.text, "m": found.value_si}
