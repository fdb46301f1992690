"""What can be bought: technical data, suppliers and dated prices."""

from django.db import models

from office.models import Versioned


class Supplier(models.Model):
    code = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=120)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Category(models.TextChoices):
    PIPE = "pipe", "Pipe"
    FITTINGS = "fittings", "Fittings"
    HEADS = "heads", "Heads"
    VALVES = "valves", "Valves and boxes"
    CONTROL = "control", "Control"
    BACKFLOW = "backflow", "Supply and backflow"
    SUNDRIES = "sundries", "Sundries"


class Part(Versioned):
    """``data`` is the technical sheet that hydraulics.catalogue validates, code and label included."""

    code = models.CharField(max_length=40, unique=True)
    label = models.CharField(max_length=120)
    kind = models.CharField(max_length=20, db_index=True)
    category = models.CharField(max_length=20, choices=Category.choices)
    data = models.JSONField()
    active = models.BooleanField(default=True)

    class Meta:
        ordering = ["category", "code"]

    def __str__(self) -> str:
        return f"{self.code}: {self.label}"


class Price(models.Model):
    """What a supplier asks from a day on, for one pack. Old prices stay as history.

    ``pack`` counts metres of what is sold by length, and pieces of all else, so that price
    divided by pack is the price of one metre or one piece.
    """

    part = models.ForeignKey(Part, on_delete=models.CASCADE, related_name="prices")
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="prices")
    price = models.DecimalField(max_digits=12, decimal_places=4)
    pack = models.DecimalField("units in a pack", max_digits=10, decimal_places=3, default=1)
    unit = models.CharField(max_length=10, default="each")  # each, m, stick, coil, roll, tin
    valid_from = models.DateField()

    class Meta:
        ordering = ["-valid_from", "-id"]
        constraints = [
            models.CheckConstraint(condition=models.Q(price__gte=0), name="price_not_negative"),
            models.CheckConstraint(condition=models.Q(pack__gt=0), name="pack_positive"),
            models.UniqueConstraint(
                fields=["part", "supplier", "valid_from"], name="one_price_a_day_per_supplier"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.part.code} from {self.valid_from}: {self.price} per {self.pack} {self.unit}"
