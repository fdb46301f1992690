"""Forms that bring a file's shapes onto the drawing board: the file, then what each layer becomes."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.forms.boundfield import BoundField

from design.exchange.becomes import LEAVE, choices_for, likely
from design.exchange.limits import MAX_BYTES
from design.exchange.placing import Placing
from design.exchange.shapes import Layer, Shapes
from design.exchange.unit_guess import DEGREES, WORDS, UnitGuess, across_words, doubt, guess_unit
from hydraulics.sentences import in_units_of

KEEP, TO_ZERO = "keep", "zero"
PLACES = [(KEEP, "Keep the file's coordinates"), (TO_ZERO, "Move its lower left corner to 0, 0")]


class GroundFileForm(forms.Form):
    file = forms.FileField(
        label="File",
        help_text=f"GeoJSON, DXF (saved as text) or GPX, at most {MAX_BYTES // 1_000_000} MB.",
        error_messages={"required": "Choose a file first.", "empty": "That file is empty."},
        widget=forms.ClearableFileInput(attrs={"accept": ".geojson,.json,.dxf,.gpx"}),
    )  # fmt: skip

    def clean_file(self) -> UploadedFile:
        file: Any = self.cleaned_data["file"]
        if file.size > MAX_BYTES:
            raise ValidationError(
                f"That file has {file.size / 1_000_000:.1f} MB; at most {MAX_BYTES // 1_000_000} MB are "
                "read. Leave out what is not the garden."
            )
        return file


class GroundChoiceForm(forms.Form):
    """One choice for each layer, the unit, and where it goes."""

    unit = forms.ChoiceField(
        label="The file's numbers are", widget=forms.RadioSelect,
        error_messages={"required": "Say in which unit the file's numbers are."},
    )  # fmt: skip
    asked_unit = forms.CharField(required=False, max_length=10, widget=forms.HiddenInput)
    place = forms.ChoiceField(label="Where it goes", choices=PLACES, widget=forms.RadioSelect)
    turn = forms.FloatField(
        label="Turn by, degrees", required=False, min_value=-360, max_value=360,
        help_text="Clockwise, about the lower left corner. Such as 12.5, if the file's north is not yours.",
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 8, "autocomplete": "off"}),
        error_messages={"invalid": "Type the degrees as a number, such as 12.5."},
    )  # fmt: skip

    def __init__(self, shapes: Shapes, *args: Any, system: str, **kwargs: Any) -> None:
        self.shapes, self.layers, self.guess = shapes, shapes.layers, guess_unit(shapes)
        self.system = system
        kwargs["initial"] = {**self._first_guess(), **kwargs.get("initial", {})}
        super().__init__(*args, **kwargs)
        units: Any = self.fields["unit"]
        units.choices = [
            (unit, in_units_of(system, unit_words(unit, self.guess))) for unit in self.guess.sizes
        ]
        for number, layer in enumerate(self.layers):
            self.fields[f"layer-{number}"] = _layer_field(layer)

    def _first_guess(self) -> dict[str, Any]:
        no_place = self.guess.unit == DEGREES and self.shapes.origin is None
        guesses = {f"layer-{number}": likely(layer) for number, layer in enumerate(self.layers)}
        return {"unit": self.guess.unit, "place": TO_ZERO if no_place else KEEP, **guesses}

    def layer_rows(self) -> list[tuple[int, Layer, BoundField]]:
        return [(number, layer, self[f"layer-{number}"]) for number, layer in enumerate(self.layers)]

    @property
    def becomes(self) -> dict[str, str]:
        return {layer.name: self.cleaned_data[f"layer-{number}"] for number, layer in enumerate(self.layers)}

    @property
    def placing(self) -> Placing:
        data = self.cleaned_data
        return Placing(data["unit"], data["place"] == TO_ZERO, data["turn"] or 0.0)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if self.errors:
            return data
        taken = [name for name, code in self.becomes.items() if code != LEAVE]
        if not taken:
            raise ValidationError("Every layer is left out. Say of at least one what it is in the garden.")
        question = doubt(self.shapes.only(taken), data["unit"])
        if question and data["asked_unit"] != data["unit"]:
            self.data = {**dict(self.data.items()), "asked_unit": data["unit"]}
            question = in_units_of(self.system, question)
            self.add_error("unit", f"{question} Send it once more to keep {WORDS[data['unit']]}.")
        return data


def unit_words(unit: str, guess: UnitGuess) -> str:
    wide_m, tall_m = guess.sizes[unit]
    if unit in guess.fitting:
        return f"{WORDS[unit]}: {wide_m:,.1f} m by {tall_m:,.1f} m"
    if not max(wide_m, tall_m):
        return WORDS[unit]
    return f"{WORDS[unit]}: {across_words((wide_m, tall_m))} across, hardly a garden"


def _layer_field(layer: Layer) -> forms.ChoiceField:
    groups: dict[str, list[tuple[str, str]]] = {}
    for becoming in choices_for(layer):
        groups.setdefault(becoming.heading, []).append((becoming.code, becoming.words))
    choices: list[Any] = []
    for heading, entries in groups.items():
        choices += [(heading, entries)] if heading else entries
    return forms.ChoiceField(label=layer.name, choices=choices)
