"""The form of a site's watering restrictions, and of what the programme reckons with."""

from datetime import time
from typing import Any

from django import forms

from hydraulics.watering.restrictions import WEEKDAYS
from sites.models import WateringRules
from sites.quantity_field import QuantityField

MOST_CAP_L = 1e8
DAYS = [f"day_{place}" for place in range(7)]


class WateringRulesForm(forms.Form):
    began_from = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)
    from_time = forms.TimeField(
        label="From", required=False, widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M")
    )
    to_time = forms.TimeField(
        label="To",
        required=False,
        help_text="An end before the beginning is on the next morning. Both empty: all day.",
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
    )
    rain_share_pct = forms.IntegerField(
        label="Share of rain that counts, %",
        min_value=0,
        max_value=100,
        help_text="The rest runs off or falls at a bad time. 50 is common practice, without a source.",
    )
    multiplier = forms.ChoiceField(
        label="Extra for uneven water",
        choices=WateringRules._meta.get_field("multiplier").choices or (),
        help_text="Both from memory. The second gives the driest quarter all it needs and the rest too much.",
    )

    def __init__(self, *args: Any, system: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["monthly_cap"] = QuantityField(
            kind="volume", system=system, label="Most water in a month", required=False,
            help_text="What the authority or the well allows. Empty: no cap.",
        )  # fmt: skip
        for place, name in enumerate(WEEKDAYS):
            self.fields[f"day_{place}"] = forms.BooleanField(label=name, required=False)
        self.order_fields([*DAYS, "from_time", "to_time", "monthly_cap", "rain_share_pct", "multiplier"])

    def day_fields(self) -> list[forms.BoundField]:
        return [self[name] for name in DAYS]

    def other_fields(self) -> list[forms.BoundField]:
        return [field for field in self.visible_fields() if field.name not in DAYS]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if not any(cleaned.get(name) for name in DAYS):
            self.add_error(DAYS[0], "Tick at least one day.")
        begins, ends = cleaned.get("from_time"), cleaned.get("to_time")
        if "from_time" not in self.errors and "to_time" not in self.errors:
            self._judge_hours(begins, ends)
        cap = cleaned.get("monthly_cap")
        if cap and not 0 < cap.value_si <= MOST_CAP_L:
            self.add_error(
                "monthly_cap", "Type an amount above zero and below 100,000 m3, or leave it empty."
            )
        return cleaned

    def _judge_hours(self, begins: time | None, ends: time | None) -> None:
        if (begins is None) != (ends is None):
            name = "from_time" if begins is None else "to_time"
            self.add_error(name, "Give both a beginning and an end, or leave both empty.")
        elif begins is not None and begins == ends:
            self.add_error("to_time", "Beginning and end are the same; leave both empty for all day.")

    def fields_typed(self) -> dict[str, Any]:
        """Columns of the row, for the services."""
        data = self.cleaned_data
        cap = data["monthly_cap"]
        return {
            "weekdays": [place for place, name in enumerate(DAYS) if data[name]],
            "from_time": data["from_time"],
            "to_time": data["to_time"],
            "monthly_cap_l": cap.value_si if cap else None,
            "monthly_cap_text": cap.text if cap else "",
            "rain_share_pct": data["rain_share_pct"],
            "multiplier": data["multiplier"],
        }


def rules_initial(rules: WateringRules | None) -> dict[str, Any]:
    """The form's values: of the stored row, or with nothing restricted yet."""
    row = rules or WateringRules()
    allowed = row.weekdays or range(7)
    return {
        "began_from": rules.version if rules else 0,
        **{name: place in allowed for place, name in enumerate(DAYS)},
        "from_time": row.from_time,
        "to_time": row.to_time,
        "monthly_cap": row.monthly_cap_text,
        "rain_share_pct": row.rain_share_pct,
        "multiplier": row.multiplier,
    }
