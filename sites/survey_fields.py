"""Fields of the readings on the ground: lengths, names of points, outlines, and ways to go."""

import re
import unicodedata
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.validators import RegexValidator

from design.survey.bearings import bearing_deg
from design.survey.readings import SurveyError
from hydraulics.units import Quantity
from sites.quantity_field import QuantityField

NAME = r"^[A-Za-z0-9][A-Za-z0-9_.\-]*\Z"
LONGEST_M = 5000
MOST_POINTS = 400
_SPAN = re.compile(r"([A-Za-z]{0,10})(\d{1,6})-([A-Za-z]{0,10})(\d{1,6})")
_TURN = re.compile(r"(l|r|left|right)\s*(\d{1,3}(?:[.,]\d{1,4})?)?\s*°?", re.IGNORECASE)
_QUARTERS = {"n": 0.0, "e": 90.0, "s": 180.0, "w": 270.0}
Typed = dict[str, Any]


class LengthField(QuantityField):
    """Cleans to a Length of the survey document, or None where it is empty."""

    def __init__(self, *, signed: bool = False, **kwargs: Any) -> None:
        self.signed = signed
        super().__init__(kind="length", required=False, **kwargs)
        self.widget.attrs["inputmode"] = "text"

    def clean(self, value: Any) -> Typed | None:
        found: Quantity | None = super().clean(value)
        if found is None:
            return None
        if abs(found.value_si) > LONGEST_M:
            raise ValidationError("That is longer than any garden. Look at the figure and its unit.")
        if found.value_si < 0 and not self.signed:
            raise ValidationError("A length cannot be negative; leave out the minus.")
        return {"text": found.text, "m": found.value_si}


class NameField(forms.CharField):
    """The name of a mark or a point: short, as it is written on the peg."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=20, required=False, **kwargs)
        self.widget.attrs |= {"autocomplete": "off", "size": 5, "spellcheck": "false"}
        self.validators.append(
            RegexValidator(NAME, "Use letters, digits, dots and dashes, beginning with a letter or digit.")
        )


class LabelField(forms.CharField):
    """A name in the person's own words, as a drawing shows it."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=120, required=False, **kwargs)

    def clean(self, value: Any) -> str:
        text: str = super().clean(value)
        if any(unicodedata.category(letter) in ("Cc", "Cs") for letter in text):
            raise ValidationError("This holds characters that cannot be shown. Type it again.")
        return text


class PointsField(forms.CharField):
    """Names in order; 1-4 is short for 1 2 3 4."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=2000, required=False, **kwargs)
        self.widget.attrs |= {"autocomplete": "off", "spellcheck": "false"}

    def clean(self, value: Any) -> list[str]:
        names: list[str] = []
        for token in re.split(r"[\s,;]+", super().clean(value)):
            names += _spanned(token) if token else []
            if len(names) > MOST_POINTS:
                raise ValidationError(f"An outline takes at most {MOST_POINTS} points.")
        for name in names:
            if len(name) > 20 or not re.match(NAME, name):
                raise ValidationError(f"“{name[:20]}” is no name of a point. Write such as 1 2 3 4, or 1-4.")
        return names


class WayField(forms.CharField):
    """A bearing (N26°10'E, 116.5, E) or a turn (L, R90, right 45); cleans to the fields of a leg."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=40, required=False, **kwargs)
        self.widget.attrs |= {"autocomplete": "off", "size": 8, "spellcheck": "false"}

    def clean(self, value: Any) -> Typed:
        text = super().clean(value)
        if not text:
            return {}
        if turn := _TURN.fullmatch(text):
            deg = float((turn[2] or "90").replace(",", "."))
            if deg > 180:
                raise ValidationError("A turn is 180° at the most. For a bearing leave out the L or R.")
            side = "left" if turn[1][0] in "lL" else "right"
            return {"turn": {"text": text, "deg": deg}, "turn_side": side}
        return {"bearing": typed_bearing(text)}


class BearingField(forms.CharField):
    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=40, required=False, **kwargs)
        self.widget.attrs |= {"autocomplete": "off", "size": 8, "spellcheck": "false"}

    def clean(self, value: Any) -> Typed | None:
        text = super().clean(value)
        return typed_bearing(text) if text else None


def typed_bearing(text: str) -> Typed:
    """An Angle of the survey document. Raises ValidationError."""
    if text.lower() in _QUARTERS:
        return {"text": text, "deg": _QUARTERS[text.lower()]}
    try:
        return {"text": text, "deg": bearing_deg(text)}
    except SurveyError as error:
        raise ValidationError(str(error)) from None


def in_short(names: list[str]) -> str:
    """Names as they are typed, runs of numbers drawn together: 1-4 A."""
    runs: list[list[str]] = []
    for name in names:
        if runs and name.isdecimal() and runs[-1][-1].isdecimal() and int(name) == int(runs[-1][-1]) + 1:
            runs[-1].append(name)
        else:
            runs.append([name])
    return " ".join(f"{run[0]}-{run[-1]}" if len(run) > 2 else " ".join(run) for run in runs)


def _spanned(token: str) -> list[str]:
    span = _SPAN.fullmatch(token)
    if not span or span[3] not in ("", span[1]):
        return [token]
    first, last = int(span[2]), int(span[4])
    if abs(last - first) >= MOST_POINTS:
        raise ValidationError(f"An outline takes at most {MOST_POINTS} points.")
    step = 1 if last >= first else -1
    return [f"{span[1]}{number}" for number in range(first, last + step, step)]
