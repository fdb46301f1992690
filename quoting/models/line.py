"""The lines of a quote."""

from decimal import Decimal

from django.core.validators import MinValueValidator
from django.db import models

from office.models import Versioned
from quoting.models.quote import Quote


class Kind(models.TextChoices):
    """What a line costs us in; tax goes by it as well."""

    MATERIAL = "material", "Material"
    LABOUR = "labour", "Labour"
    HIRE = "hire", "Plant hire"
    SUBCONTRACT = "subcontract", "Subcontract"
    PERMIT = "permit", "Permit and fees"
    ADJUSTMENT = "adjustment", "Adjustment"


class Section(models.TextChoices):
    """The headings that the customer reads; lines are shown in this order."""

    GROUND = "ground", "Trenching and ground work"
    PIPE = "pipe", "Pipe and fittings"
    HEADS = "heads", "Sprinklers and drip"
    VALVES = "valves", "Valves and boxes"
    CONTROL = "control", "Controller and cable"
    SUPPLY = "supply", "Water supply and backflow protection"
    COMMISSIONING = "commissioning", "Setting out, testing and handover"
    SPECIALISTS = "specialists", "Licensed trades"
    PERMITS = "permits", "Permits and locating services"
    OTHER = "other", "Other"


class LineOrigin(models.TextChoices):
    COMPUTED = "computed", "From the plan"
    MANUAL = "manual", "Added by hand"


class Choice(models.TextChoices):
    INCLUDED = "included", "Included"
    OPTIONAL = "optional", "Optional extra"
    ALTERNATE = "alternate", "Alternative to another line"


class QuoteLine(Versioned):
    """One line. ``key`` finds a computed line again when the quote is worked out anew."""

    quote = models.ForeignKey(Quote, on_delete=models.CASCADE, related_name="lines")
    order = models.PositiveIntegerField(default=0)
    key = models.CharField(max_length=160, blank=True)
    origin = models.CharField(max_length=10, choices=LineOrigin.choices, default=LineOrigin.COMPUTED)
    section = models.CharField(max_length=20, choices=Section.choices, default=Section.OTHER)
    kind = models.CharField("what it is", max_length=20, choices=Kind.choices)
    text = models.CharField("what the customer reads", max_length=300)
    internal_text = models.CharField("note for the office", max_length=500, blank=True)
    listed = models.BooleanField("named on the offer", default=True)  # else only in its section's price
    quantity = models.DecimalField(
        max_digits=14, decimal_places=3, default=Decimal(1), validators=[MinValueValidator(Decimal(0))]
    )
    unit = models.CharField(max_length=20, default="each")
    unit_cost = models.DecimalField(  # none: nobody has a price
        max_digits=14, decimal_places=4, null=True, blank=True, validators=[MinValueValidator(Decimal(0))]
    )
    cost = models.DecimalField(max_digits=12, decimal_places=2, default=Decimal(0))
    overhead = models.DecimalField(max_digits=12, decimal_places=2, default=Decimal(0))
    contingency = models.DecimalField(max_digits=12, decimal_places=2, default=Decimal(0))
    hours = models.DecimalField(max_digits=10, decimal_places=3, default=Decimal(0))
    computed_quantity = models.DecimalField(max_digits=14, decimal_places=3, null=True, blank=True)
    computed_price = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)
    price = models.DecimalField(max_digits=12, decimal_places=2, default=Decimal(0))
    price_fixed = models.BooleanField("price set by hand", default=False)
    price_reason = models.CharField("why this price", max_length=300, blank=True)
    tax_rate = models.DecimalField("tax, percent", max_digits=6, decimal_places=3, default=Decimal(0))
    supplier = models.CharField(max_length=120, blank=True)
    price_from = models.DateField(null=True, blank=True)  # since when the supplier asks that
    where = models.JSONField(default=list, blank=True)  # ids of plan entities
    how = models.CharField(max_length=500, blank=True)  # how it was counted
    choice = models.CharField(max_length=10, choices=Choice.choices, default=Choice.INCLUDED)
    alternative_to = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.SET_NULL, related_name="alternatives"
    )

    class Meta:
        ordering = ["order", "id"]
        indexes = [models.Index(fields=["quote", "order"], name="line_in_order")]
        constraints = [
            models.CheckConstraint(condition=models.Q(quantity__gte=0), name="line_quantity_not_negative"),
            models.CheckConstraint(
                condition=models.Q(price_fixed=False) | ~models.Q(price_reason=""),
                name="line_fixed_price_has_a_reason",
            ),
            models.CheckConstraint(
                condition=models.Q(tax_rate__gte=0) & models.Q(tax_rate__lte=100),
                name="line_tax_rate_is_percent",
            ),
        ]

    def __str__(self) -> str:
        return self.text

    @property
    def office_text(self) -> str:
        """What the office calls it: the very part or work, where the customer reads something plainer."""
        return self.internal_text if self.internal_text and self.key else self.text

    @property
    def full_cost(self) -> Decimal:
        """With its share of overhead and contingency."""
        return self.cost + self.overhead + self.contingency

    @property
    def lacks_price(self) -> bool:
        """Something to buy for which nobody has a price, and nobody set one by hand."""
        return self.unit_cost is None and not self.price_fixed

    @property
    def quantity_edited(self) -> bool:
        return self.computed_quantity is not None and self.quantity != self.computed_quantity
