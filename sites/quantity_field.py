"""One form field for every figure: typed in the unit that the person has, cleaned to a Quantity."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.html import format_html
from django.utils.safestring import SafeString

from hydraulics.errors import BadQuantity
from hydraulics.units import Kind, Quantity, parse_quantity
from sites.figures import default_unit, typed_text, unit_written

MAX_LENGTH = 40


class QuantityInput(forms.TextInput):
    """A text input that says beside it what a bare number means."""

    def __init__(self, unit: str, attrs: dict[str, Any] | None = None) -> None:
        super().__init__({"autocomplete": "off", "size": 12, **(attrs or {})})
        self.unit = unit

    def render(self, *args: Any, **kwargs: Any) -> SafeString:
        return format_html(
            '<span class="measure">{}<span class="measure-unit" aria-hidden="true">{}</span></span>',
            super().render(*args, **kwargs),
            unit_written(self.unit),
        )


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

    @property
    def unit_written(self) -> str:
        return unit_written(self.unit)

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
    return Quantity(found.value_si, found.unit, typed_text(found))


def sentence(text: str) -> str:
    """The engineering package's message as a sentence beside a field."""
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
