"""How this company prices: one row of rates, and a table of production rates."""

from decimal import Decimal
from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from office.models import Versioned

NOT_NEGATIVE = [MinValueValidator(Decimal(0))]
PERCENT = [MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(100))]


class Method(models.TextChoices):
    """Two ways to earn on a cost; 20 % of one is not 20 % of the other."""

    MARGIN = "margin", "margin: share of the price"
    MARKUP = "markup", "markup: share of the cost"


class Numbering(models.TextChoices):
    YEARLY = "yearly", "start again each year"
    OVERALL = "overall", "run on over the years"


class TaxBy(models.TextChoices):
    LINE = "line", "on each line"
    TOTAL = "total", "on the total of each rate"


def _money(label: str, default: str, help_text: str = "") -> Any:
    return models.DecimalField(
        label,
        max_digits=10,
        decimal_places=2,
        default=Decimal(default),
        validators=NOT_NEGATIVE,
        help_text=help_text,
    )


def _percent(label: str, default: str, help_text: str = "") -> Any:
    return models.DecimalField(
        label,
        max_digits=6,
        decimal_places=3,
        default=Decimal(default),
        validators=PERCENT,
        help_text=help_text,
    )


def _hours(label: str, default: str) -> Any:
    return models.DecimalField(
        label, max_digits=5, decimal_places=2, default=Decimal(default), validators=NOT_NEGATIVE
    )


def default_stages() -> list[dict[str, str]]:
    # common practice, no source
    return [
        {"percent": "40", "label": "when the main is laid and tested"},
        {"percent": "20", "label": "when every zone runs"},
        {"percent": "10", "label": "when the last point is closed"},
    ]


DEFAULT_EXCLUSIONS = """\
Rock, rubble or foundations found below the surface
Private lines that nobody told us about or that no locating service can find
Contaminated soil
Settlement of the ground after twelve months
A change of water pressure by the supplier
Permits that are not listed
Winter draining, unless it is listed
Repairs to existing parts that stay in use"""

DEFAULT_WARRANTY = "Two years on our work; the makers' terms on the parts."


class Policy(Versioned):
    """The one row of pricing settings. Every default is common practice, no source."""

    wage_per_hour = _money("wage per hour", "30.00")
    burden = models.DecimalField(
        "wage factor",
        max_digits=5,
        decimal_places=3,
        default=Decimal("1.300"),
        validators=[MinValueValidator(Decimal(1)), MaxValueValidator(Decimal(5))],
        help_text="What an hour costs you for each unit of wage: insurance, holidays, sick days.",
    )
    overhead_per_hour = _money(
        "overhead per hour", "31.00", "A year's overhead divided by the hours that you can bill in the field."
    )
    crew_size = models.PositiveSmallIntegerField(
        "people in a crew", default=2, validators=[MinValueValidator(1), MaxValueValidator(20)]
    )
    hours_per_day = models.DecimalField(
        "working hours in a day",
        max_digits=4,
        decimal_places=2,
        default=Decimal("8.00"),
        validators=[MinValueValidator(Decimal(1)), MaxValueValidator(Decimal(16))],
    )
    travel_per_day = _money("vehicle, each crew day", "0.00")
    setup_hours = _hours("setting up, hours each person and day", "1.00")
    travel_hours = _hours("travel, hours each person and day", "0.50")
    carrying_percent = _percent("carrying, weather and breaks", "12.5", "On top of the hours at the face.")
    smallest_job_days = _hours("smallest job, crew days", "1.00")
    hire_per_day = _money("trencher hire per day", "0.00", "0 if the machine is yours.")
    material_method = models.CharField(max_length=6, choices=Method.choices, default=Method.MARGIN)
    material_percent = _percent("on materials", "15")
    labour_method = models.CharField(max_length=6, choices=Method.choices, default=Method.MARGIN)
    labour_percent = _percent("on own work", "15")
    hire_method = models.CharField(max_length=6, choices=Method.choices, default=Method.MARGIN)
    hire_percent = _percent("on plant hire", "15")
    subcontract_method = models.CharField(max_length=6, choices=Method.choices, default=Method.MARKUP)
    subcontract_percent = _percent("on subcontracts", "15")
    permit_method = models.CharField(max_length=6, choices=Method.choices, default=Method.MARKUP)
    permit_percent = _percent("on permits and fees", "0")
    contingency_percent = _percent(
        "contingency", "5", "Share of labour and materials put aside for what nobody can foresee."
    )
    plumber_allowance = _money(
        "licensed plumber, allowance", "650.00", "Backflow device and supply connection."
    )
    electrician_allowance = _money("licensed electrician, allowance", "0.00", "Power for the controller.")
    permit_fee = _money("permit", "120.00")
    locate_fee = _money("locating buried services", "0.00")
    gross_margin_warn_percent = _percent("warn when less is left before overhead", "35")
    gross_margin_stop_percent = _percent("and warn loudly below", "25")
    minimum_job = _money("smallest job", "0.00", "No quote goes below this price before tax.")
    round_up_step = _money("round the price up to", "5.00", "0 leaves the cents as they come.")
    tax_material = _percent("tax on materials", "8")
    tax_labour = _percent("tax on own work", "8")
    tax_hire = _percent("tax on plant hire", "8")
    tax_subcontract = _percent("tax on subcontracts", "8")
    tax_permit = _percent("tax on permits and fees", "8")
    tax_by = models.CharField("tax is rounded", max_length=6, choices=TaxBy.choices, default=TaxBy.TOTAL)
    deposit_percent = _percent("deposit", "30")
    deposit_cap_percent = models.DecimalField(
        "deposit, most allowed by law",
        max_digits=6,
        decimal_places=3,
        null=True,
        blank=True,
        validators=PERCENT,
        help_text="Percent of the price. Some places have a cap: take yours from your local rules.",
    )
    deposit_cap_amount = models.DecimalField(
        "deposit, largest amount allowed by law",
        max_digits=10,
        decimal_places=2,
        null=True,
        blank=True,
        validators=NOT_NEGATIVE,
    )
    stages = models.JSONField(default=default_stages, blank=True)
    validity_days = models.PositiveSmallIntegerField(
        "a quote is valid for, days", default=30, validators=[MinValueValidator(1), MaxValueValidator(365)]
    )
    price_age_warn_days = models.PositiveSmallIntegerField(
        "a supplier's price is old after, days", default=60
    )
    price_age_stop_days = models.PositiveSmallIntegerField("and too old to quote after, days", default=90)
    numbering = models.CharField(
        "quote numbers", max_length=8, choices=Numbering.choices, default=Numbering.YEARLY
    )
    exclusions = models.TextField(
        "not included", default=DEFAULT_EXCLUSIONS, blank=True, help_text="One per line, on each proposal."
    )
    warranty = models.CharField(max_length=300, default=DEFAULT_WARRANTY, blank=True)

    class Meta:
        verbose_name_plural = "policies"

    def __str__(self) -> str:
        return "pricing"

    def clean(self) -> None:
        for kind in ("material", "labour", "hire", "subcontract", "permit"):
            method, percent = getattr(self, f"{kind}_method"), getattr(self, f"{kind}_percent")
            if method == Method.MARGIN and percent is not None and percent > 95:
                raise ValidationError(
                    {f"{kind}_percent": "A margin stays below 95 %; did you mean a markup?"}
                )
        cap = self.deposit_cap_percent
        if cap is not None and self.deposit_percent is not None and self.deposit_percent > cap:
            raise ValidationError({"deposit_percent": f"The law here allows at most {cap.normalize():f} %."})
        _check_stages(self.deposit_percent, self.stages)


def _check_stages(deposit: Decimal | None, stages: list[dict[str, str]]) -> None:
    """The deposit and the stages make the whole price."""
    if deposit is None:
        return
    whole = deposit + sum((Decimal(stage["percent"]) for stage in stages), Decimal(0))
    if whole != 100:
        sentence = f"Deposit and stages add up to {whole.normalize():f} %; they have to make 100 %."
        raise ValidationError({"stages": sentence})


class ProductionRate(Versioned):
    """How fast one kind of work goes. ``value`` is what quotes use, good to bad stand beside it."""

    work = models.SlugField("work", max_length=60, unique=True)
    label = models.CharField(max_length=120)
    measure = models.CharField(max_length=20)  # m/h, min each, h each
    good = models.DecimalField(max_digits=10, decimal_places=3)
    typical = models.DecimalField(max_digits=10, decimal_places=3)
    bad = models.DecimalField(max_digits=10, decimal_places=3)
    value = models.DecimalField(max_digits=10, decimal_places=3)
    order = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["order", "work"]
        constraints = [
            models.CheckConstraint(condition=models.Q(value__gt=0), name="production_rate_positive"),
        ]

    def __str__(self) -> str:
        return self.label
