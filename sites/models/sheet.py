"""What the walk-round sheet of a visit holds, a row for each line that was filled in."""

from django.conf import settings
from django.db import models

from office.models import Versioned
from sites.models.visit import Visit


class Confidence(models.TextChoices):
    MEASURED = "measured", "measured"
    ESTIMATED = "estimated", "estimated"
    TOLD = "told", "told by somebody"
    FROM_PLAN = "from_plan", "from a plan"


class SheetEntry(Versioned):
    """One line as typed. ``value_si`` is its figure in SI where the line is a figure. Blank is not zero."""

    visit = models.ForeignKey(Visit, on_delete=models.CASCADE, related_name="sheet")
    field = models.SlugField(max_length=40)  # key of the line
    text = models.CharField(max_length=1000, blank=True)
    value_si = models.FloatField(null=True, blank=True)
    confidence = models.CharField(max_length=10, choices=Confidence.choices, default=Confidence.MEASURED)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT)

    class Meta:
        ordering = ["visit", "field"]
        constraints = [models.UniqueConstraint(fields=["visit", "field"], name="sheet_line_once_per_visit")]

    def __str__(self) -> str:
        return f"{self.field}: {self.text}"
