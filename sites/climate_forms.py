"""The form of a site's climate: twelve months, two figures each; and the file that brings them."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.forms import BoundField

from hydraulics.units import Quantity
from hydraulics.watering.climate import MONTHS
from sites.climate_csv import MAX_BYTES, MOST_MM, ClimateRow, too_much
from sites.models import SiteClimate
from sites.quantity_field import QuantityField

NAMES = {"eto": "reference ET", "rain": "rain"}
SOURCE_HELP = "Such as: normals of the nearest weather station, 1991 to 2020"


class ClimateDepth(QuantityField):
    """A depth of water in a month, bounded by what a month can have."""

    def __init__(self, *, column: str, month: str, system: str) -> None:
        self.column = column
        super().__init__(
            kind="depth",
            system=system,
            label=f"{month}, {NAMES[column]}",
            error_messages={"required": "Fill this in; a month without any has 0."},
            widget=forms.TextInput(attrs={"autocomplete": "off", "size": 8}),
        )

    def clean(self, value: Any) -> Any:
        quantity: Quantity | None = super().clean(value)
        if quantity and quantity.value_si > MOST_MM[self.column]:
            raise ValidationError(too_much(quantity, self.column), code="too_much")
        return quantity


class ClimateForm(forms.Form):
    began_from = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)
    source = forms.CharField(
        label="Where the figures come from", max_length=200, required=False, help_text=SOURCE_HELP
    )

    def __init__(self, *args: Any, system: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for place, month in enumerate(MONTHS, 1):
            for column in NAMES:
                self.fields[f"{column}_{place}"] = ClimateDepth(column=column, month=month, system=system)

    def month_rows(self) -> list[tuple[str, BoundField, BoundField]]:
        """Month and its two fields, for the table."""
        return [(name, self[f"eto_{place}"], self[f"rain_{place}"]) for place, name in enumerate(MONTHS, 1)]

    def rows(self) -> list[ClimateRow]:
        data = self.cleaned_data
        return [ClimateRow(place, data[f"eto_{place}"], data[f"rain_{place}"]) for place in range(1, 13)]


class ClimateFileForm(forms.Form):
    began_from = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)
    source = forms.CharField(
        label="Where its figures come from", max_length=200, required=False, help_text=SOURCE_HELP
    )
    file = forms.FileField(
        label="CSV file",
        help_text="A row for each month under the headings month, eto_mm, rain_mm (or eto_in, rain_in).",
        error_messages={"required": "Choose a file first.", "empty": "That file is empty."},
        widget=forms.ClearableFileInput(attrs={"accept": ".csv,text/csv"}),
    )

    def clean_file(self) -> UploadedFile:
        file: Any = self.cleaned_data["file"]
        if file.size > MAX_BYTES:
            raise ValidationError(
                f"That file has {file.size / 1000:.0f} kB; a climate needs less than {MAX_BYTES // 1000} kB."
            )
        return file


def climate_initial(climate: SiteClimate | None) -> dict[str, Any]:
    """The form's values for a stored climate, or none yet."""
    if climate is None:
        return {"began_from": 0}
    values: dict[str, Any] = {"began_from": climate.version, "source": climate.source}
    for month in climate.months.all():
        values |= {f"eto_{month.month}": month.eto_text, f"rain_{month.month}": month.rain_text}
    return values


def climate_data(rows: list[ClimateRow], source: str, began_from: int) -> dict[str, Any]:
    """Rows that were read, as if somebody had typed them into the form."""
    values: dict[str, Any] = {"began_from": began_from, "source": source}
    for row in rows:
        values |= {f"eto_{row.month}": row.eto.text, f"rain_{row.month}": row.rain.text}
    return values
