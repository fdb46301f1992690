"""One form field for every figure: typed in the unit that the person has, cleaned to a Quantity."""

import re
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from hydraulics.errors import BadQuantity
from hydraulics.units import Kind, Quantity, parse_quantity
from sites.figures import default_unit, unit_written

MAX_LENGTH = 40
_ENDS_WITH_DIGIT = re.compile(r"[\d.,]\s*$")


class QuantityInput(forms.TextInput):
    """A text input that says beside it what a bare number means."""

    template_name = "sites/widgets/quantity.html"

    def __init__(self, unit: str, attrs: dict[str, Any] | None = None) -> None:
        super().__init__({"autocomplete": "off", "size": 12, **(attrs or {})})
        self.unit = unit

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        context = super().get_context(name, value, attrs)
        context["widget"]["unit"] = unit_written(self.unit)
        return context


class QuantityField(forms.CharField):
    """Cleans to a ``Quantity`` in the working unit of its kind, or None where it is left empty.

    A bare number is in the default unit of ``system``, and its kept text names that unit.
    """

    def __init__(self, *, kind: Kind, system: str = "metric", unit: str = "", **kwargs: Any) -> None:
        self.kind: Kind = kind
        self.unit = unit or default_unit(kind, system)
        kwargs.setdefault("widget", QuantityInput(self.unit))
        kwargs.setdefault("max_length", MAX_LENGTH)
        super().__init__(**kwargs)

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        try:
            return read_quantity(text, self.kind, self.unit)
        except BadQuantity as error:
            raise ValidationError(sentence(str(error)), code="quantity") from None


def read_quantity(text: str, kind: Kind, unit: str) -> Quantity:
    """The figure, its text completed by the unit that a bare number is in. Raises BadQuantity."""
    try:
        found = parse_quantity(text, kind, unit)
    except BadQuantity:
        raise
    except (ValueError, OverflowError):
        raise BadQuantity(f"“{text[:MAX_LENGTH]}” is not a number that can be read") from None
    plain = " ".join(text.split())
    if _ENDS_WITH_DIGIT.search(plain) and "ft" not in plain and "'" not in plain:
        plain = f"{plain} {unit}"
    return Quantity(found.value_si, found.unit, plain)


def sentence(text: str) -> str:
    """The engineering package's message as a sentence beside a field."""
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
