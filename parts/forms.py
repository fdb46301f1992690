"""Forms of the parts book."""

from typing import Any

from django import forms
from django.utils import timezone

from design.problems import Problem
from parts.models import Category, Part, Price, Supplier
from parts.sheet_fields import SheetField, sheet_fields
from parts.sheet_text import shown, typed
from parts.technical import KIND_NAMES


class KindForm(forms.Form):
    kind = forms.ChoiceField(label="Kind of part", choices=list(KIND_NAMES.items()))


class SheetForm(forms.Form):
    """The technical data of one kind of part as labelled fields, one per field of its model.

    The model judges the values, not this form: ``data()`` hands them over and
    ``show_problems`` puts its sentences beside the fields.
    """

    category = forms.ChoiceField(choices=Category.choices)
    active = forms.BooleanField(label="In use: offered in plans and quotes", required=False)
    began_from = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, kind: str, *args: Any, stored: Part | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.kind = kind
        self.sheet = sheet_fields(kind)
        data = stored.data if stored else {}
        for field in self.sheet:
            self.fields[field.name] = _form_field(field, data.get(field.name, field.default))
        if stored:
            self.fields["code"].disabled = True
            self.initial.update(category=stored.category, active=stored.active, began_from=stored.version)
        self.order_fields(["code", "label", "category"])

    def technical_data(self) -> dict[str, Any]:
        """The technical data as typed; fields left empty take their defaults."""
        data: dict[str, Any] = {"kind": self.kind}
        for field in self.sheet:
            value = self.cleaned_data.get(field.name)
            if field.entry == "yes_no":
                data[field.name] = bool(value)
            elif value not in (None, ""):
                data[field.name] = typed(field, str(value))
        return data

    def begin_from(self, version: int) -> None:
        """Have the next save begin from that version, once its values have been shown."""
        data = dict(self.data.items())
        data["began_from"] = str(version)
        self.data = data

    def show_problems(self, problems: list[Problem]) -> None:
        for problem in problems:
            name, sentence = problem.field, problem.sentence
            if problem.entity != "part":  # such as rows[2]
                name, _, place = problem.entity.partition("[")
                line = int(place.rstrip("]")) + 1 if place.rstrip("]").isdigit() else 1
                sentence = f"Line {line}, {problem.field}: {sentence}"
            name = name.partition("[")[0]
            self.add_error(name if name in self.fields else None, sentence)


def _form_field(field: SheetField, value: Any) -> forms.Field:
    if field.entry == "yes_no":
        return forms.BooleanField(label=field.label, required=False, initial=bool(value))
    text = shown(field, _plain(value))
    if field.entry == "choice":
        choices = [(choice, choice.replace("_", " ")) for choice in field.choices]
        return forms.ChoiceField(label=field.label, choices=choices, initial=text)
    if field.entry == "rows":
        widget = forms.Textarea(attrs={"rows": 5, "class": "rows"})
        return forms.CharField(
            label=field.label, initial=text, required=field.needed, widget=widget, max_length=5000,
            help_text="One row a line, values apart by spaces.",
        )  # fmt: skip
    hint = "Several apart by spaces." if field.entry == "numbers" else ""
    return forms.CharField(
        label=field.label, initial=text, required=field.needed, max_length=200, help_text=hint
    )


def _plain(value: Any) -> Any:
    """Defaults of the models are tuples of models; stored data are lists of dictionaries."""
    if isinstance(value, tuple | list):
        return [item.model_dump() if hasattr(item, "model_dump") else item for item in value]
    return value


class PriceForm(forms.ModelForm):
    class Meta:
        model = Price
        fields = ["supplier", "price", "pack", "unit", "valid_from"]
        labels = {"price": "Price of one pack", "unit": "Pack is called", "valid_from": "Valid from"}
        help_texts = {
            "pack": "Metres in it for pipe, drip line and cable; otherwise pieces.",
            "unit": "Such as each, m, stick, coil, roll or tin.",
        }
        widgets = {"valid_from": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.initial.setdefault("valid_from", timezone.localdate())


class SupplierForm(forms.ModelForm):
    class Meta:
        model = Supplier
        fields = ["code", "name"]


class PriceBookForm(forms.Form):
    file = forms.FileField(
        label="Price book file",
        help_text="A JSON file with suppliers, parts and prices. All of it is taken, or nothing.",
        error_messages={"required": "Choose a file first.", "empty": "That file is empty."},
    )
