"""Forms of a photo: sending one, and saying what it shows and where it was taken."""

from typing import Any

from django import forms
from django.http import QueryDict

from hydraulics.units import Quantity
from sites.figures import default_unit, written
from sites.models import SitePhoto
from sites.quantity_field import QuantityField
from sites.walk_round.forms import MOST_VERSION
from sites.walk_round.lines import LINES

FARTHEST_M = 5000
ABOUT = [("", "nothing in particular"), *((line.key, line.question) for line in LINES)]
_ACCEPT = "image/jpeg,image/png,image/webp"


class PhotoUploadForm(forms.Form):
    file = forms.FileField(
        label="Photo", max_length=200, widget=forms.FileInput(attrs={"accept": _ACCEPT}),
        help_text="JPEG, PNG or WebP, up to 10 MB. Place and camera are taken out of the file.",
    )  # fmt: skip
    caption = forms.CharField(label="What it shows", max_length=200, required=False)
    about = forms.ChoiceField(label="Belongs to the line", choices=ABOUT, required=False)


class PhotoForm(forms.Form):
    began_from = forms.IntegerField(
        required=False, min_value=0, max_value=MOST_VERSION, widget=forms.HiddenInput
    )
    caption = forms.CharField(label="What it shows", max_length=200, required=False)
    about = forms.ChoiceField(label="Belongs to the line", choices=ABOUT, required=False)
    looks_deg = forms.FloatField(
        label="Looks towards, in degrees", required=False, min_value=0, max_value=360,
        help_text="0 is north, 90 east, 180 south, 270 west.",
        widget=forms.NumberInput(attrs={"inputmode": "decimal", "step": "any"}),
    )  # fmt: skip

    def __init__(self, photo: SitePhoto, data: QueryDict | None = None) -> None:
        system = photo.visit.site.units
        self.posted = data or QueryDict()
        super().__init__(data, initial=_initial(photo, system))
        for name, label in (("east", "East of the plan's zero"), ("north", "North of the plan's zero")):
            self.fields[name] = QuantityField(kind="length", system=system, label=label, required=False)
        self.order_fields(["caption", "about", "east", "north", "looks_deg"])

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for name in ("east", "north"):
            figure: Quantity | None = cleaned.get(name)
            if figure is not None and abs(figure.value_si) > FARTHEST_M:
                self.add_error(name, "That is kilometres away from the plan. Look at the figure again.")
        for name, other in (("east", "north"), ("north", "east")):
            if cleaned.get(name) is not None and cleaned.get(other) is None and not self.errors:
                self.add_error(other, "A place needs both figures. Fill this in, or clear the other.")
        return cleaned

    def columns(self) -> dict[str, Any]:
        data = self.cleaned_data
        east, north = data.get("east"), data.get("north")
        return {
            "caption": data["caption"],
            "about": data["about"],
            "east_m": east.value_si if east else None,
            "north_m": north.value_si if north else None,
            "looks_deg": None if data["looks_deg"] is None else data["looks_deg"] % 360,
        }

    def begin_from(self, version: int) -> None:
        """Have the next save begin from that version, once what stands there has been shown."""
        data = self.posted.copy()
        data["began_from"] = str(version)
        self.data = data


def _initial(photo: SitePhoto, system: str) -> dict[str, Any]:
    unit = default_unit("length", system)
    return {
        "began_from": photo.version,
        "caption": photo.caption,
        "about": photo.about,
        "east": "" if photo.east_m is None else written(photo.east_m, "length", unit),
        "north": "" if photo.north_m is None else written(photo.north_m, "length", unit),
        "looks_deg": photo.looks_deg,
    }
