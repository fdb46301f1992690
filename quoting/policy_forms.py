"""Forms of the pricing settings."""

import re
from decimal import Decimal, InvalidOperation
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from quoting.models import Policy, ProductionRate

_EARNED = ("labour", "material", "hire", "subcontract", "permit")
GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("What an hour costs", (
        "wage_per_hour", "burden", "overhead_per_hour", "crew_size", "hours_per_day", "setup_hours",
        "travel_hours", "carrying_percent", "smallest_job_days",
    )),
    ("Machines and vehicles", ("hire_per_day", "travel_per_day")),
    ("What you earn on it", (
        *(f"{kind}_{what}" for kind in _EARNED for what in ("method", "percent")),
        "contingency_percent", "gross_margin_warn_percent", "gross_margin_stop_percent",
    )),
    ("Allowances and fees", ("plumber_allowance", "electrician_allowance", "permit_fee", "locate_fee")),
    ("The price as a whole", ("minimum_job", "round_up_step")),
    ("Tax", ("tax_labour", "tax_material", "tax_hire", "tax_subcontract", "tax_permit", "tax_by")),
    ("Payment", ("deposit_percent", "deposit_cap_percent", "deposit_cap_amount", "stages")),
    ("On the offer", (
        "validity_days", "numbering", "price_age_warn_days", "price_age_stop_days", "exclusions", "warranty",
    )),
)  # fmt: skip
_LABELS = {
    "labour_method": "Own work: by",
    "labour_percent": "Own work, percent",
    "material_method": "Materials: by",
    "material_percent": "Materials, percent",
    "hire_method": "Plant hire: by",
    "hire_percent": "Plant hire, percent",
    "subcontract_method": "Subcontracts: by",
    "subcontract_percent": "Subcontracts, percent",
    "permit_method": "Permits and fees: by",
    "permit_percent": "Permits and fees, percent",
    "contingency_percent": "Contingency, percent",
    "deposit_percent": "Deposit, percent",
    "deposit_cap_percent": "Deposit, most allowed by law, percent",
    "carrying_percent": "Carrying, weather and breaks, percent",
    "gross_margin_warn_percent": "Warn when less is left before overhead, percent",
    "gross_margin_stop_percent": "And warn loudly below, percent",
    **{
        f"tax_{kind}": f"Tax on {on}, percent"
        for kind, on in (
            ("labour", "own work"),
            ("material", "materials"),
            ("hire", "plant hire"),
            ("subcontract", "subcontracts"),
            ("permit", "permits and fees"),
        )
    },
}
_MONEY = ("_hour", "_day", "_fee", "_allowance", "_job", "_step", "_amount")
_STAGE = re.compile(r"^\s*(\d{1,3}(?:[.,]\d{1,3})?)\s*%?\s+(\S.*)$")


class PolicyForm(forms.ModelForm):
    """All pricing settings on one page, in groups."""

    began_from = forms.IntegerField(widget=forms.HiddenInput, min_value=0, max_value=2**31 - 1)
    stages = forms.CharField(
        label="Payments after the deposit",
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text="One per line: percent, then when. Such as: 40 when the main is laid and tested",
    )

    class Meta:
        model = Policy
        fields = [name for _, names in GROUPS for name in names]
        labels = _LABELS

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["began_from"].initial = self.instance.version
        for name, value in self.initial.items():
            if isinstance(value, Decimal) and not name.endswith(_MONEY):
                self.initial[name] = f"{value.normalize():f}"  # 15 and not 15.000
        self.initial["stages"] = stages_text(self.instance.stages)

    def groups(self) -> list[tuple[str, list[forms.BoundField]]]:
        return [(title, [self[name] for name in names]) for title, names in GROUPS]

    def clean_stages(self) -> list[dict[str, str]]:
        return read_stages(self.cleaned_data["stages"])

    def fields_for_service(self) -> dict[str, object]:
        return {name: self.cleaned_data[name] for name in self.Meta.fields}


class RateForm(forms.ModelForm):
    began_from = forms.IntegerField(widget=forms.HiddenInput, min_value=0, max_value=2**31 - 1)

    class Meta:
        model = ProductionRate
        fields = ["value"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.auto_id = f"rate-{self.instance.work}-%s"
        self.fields["began_from"].initial = self.instance.version
        self.fields["value"].widget.attrs["inputmode"] = "decimal"
        if isinstance(self.initial.get("value"), Decimal):
            self.initial["value"] = f"{self.initial['value'].normalize():f}"  # 30 and not 30.000

    def clean_value(self) -> Decimal:
        value: Decimal = self.cleaned_data["value"]
        if value <= 0:
            raise ValidationError("A rate is above zero.")
        return value


def stages_text(stages: list[dict[str, str]]) -> str:
    return "\n".join(f"{stage['percent']} {stage['label']}" for stage in stages)


def read_stages(text: str) -> list[dict[str, str]]:
    """Stages from lines such as “40 when the main is laid”. Raises ValidationError naming the line."""
    stages = []
    for number, line in enumerate(filter(str.strip, text.splitlines()), start=1):
        match = _STAGE.match(line.replace("\x00", ""))
        if match is None:
            raise ValidationError(f"Line {number} is not a percentage and when it is due: “{line.strip()}”.")
        stages.append({"percent": _percent(match[1]), "label": match[2].strip()[:120]})
    if len(stages) > 10:
        raise ValidationError("More than ten payments; put some together.")
    return stages


def _percent(text: str) -> str:
    try:
        return f"{Decimal(text.replace(',', '.')).normalize():f}"
    except InvalidOperation:
        raise ValidationError(f"“{text}” is not a percentage.") from None
