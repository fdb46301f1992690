"""Moving one limit."""

import math
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from hydraulics.limits import BadLimit, check_limit
from sites.limit_page import LimitRow


class LimitForm(forms.Form):
    """The company's own value, empty for the usual one, and why."""

    began_from = forms.IntegerField(widget=forms.HiddenInput, min_value=0)
    value = forms.CharField(
        label="Your own value",
        required=False,
        max_length=20,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"}),
    )
    reason = forms.CharField(
        label="Reason",
        max_length=300,
        error_messages={"required": "Say why; whoever reads a report will ask."},
    )

    def __init__(self, *args: Any, row: LimitRow, **kwargs: Any) -> None:
        setting = row.setting
        own = setting.value if setting else None
        initial = {
            "began_from": row.version,
            "value": "" if own is None else f"{own:g}",
            "reason": setting.reason if setting and own is not None else "",
        }
        super().__init__(*args, **{"initial": initial, **kwargs})
        self.row = row
        unit = "" if row.facts.unit in ("share", "ratio") else f" in {row.facts.unit}"
        self.fields["value"].label = f"Your own value{unit}"
        self.fields["value"].help_text = f"{row.within}. Leave empty for the usual {row.usual}."
        self.fields["reason"].help_text = "Who asked for it, or what it rests on. Everybody can read it."

    def clean_value(self) -> float | None:
        typed = self.cleaned_data["value"].strip().replace(",", ".")
        if not typed:
            return None
        try:
            value = float(typed)
        except ValueError:
            value = math.nan
        if not math.isfinite(value):
            raise ValidationError("Type a number, such as 1.5, or leave this empty.")
        try:
            check_limit(self.row.facts.name, value)
        except BadLimit as refusal:
            raise ValidationError(str(refusal)) from None
        return value
