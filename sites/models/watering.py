"""The climate of a site, and when water may run there.

Each figure stands in two columns: in SI with the unit in the name, and as it was typed.
"""

from django.db import models
from django.db.models import Q

from hydraulics.watering.climate import MONTHS, MOST_ETO_MM, MOST_RAIN_MM
from hydraulics.watering.need import RAIN_SHARE
from office.models import Versioned
from sites.models.customer import Site


class SiteClimate(Versioned):
    """Twelve months of one site, and where the figures come from."""

    site = models.OneToOneField(Site, on_delete=models.PROTECT, related_name="climate")
    source = models.CharField(max_length=200, blank=True)

    def __str__(self) -> str:
        return f"{self.site}, climate"


class ClimateMonth(models.Model):
    """Reference evapotranspiration and rain of a month, means of many years."""

    climate = models.ForeignKey(SiteClimate, on_delete=models.CASCADE, related_name="months")
    month = models.PositiveSmallIntegerField()
    eto_mm = models.FloatField()
    eto_text = models.CharField(max_length=60)
    rain_mm = models.FloatField()
    rain_text = models.CharField(max_length=60)

    class Meta:
        ordering = ["month"]
        constraints = [
            models.UniqueConstraint(fields=["climate", "month"], name="climate_month_once"),
            models.CheckConstraint(condition=Q(month__gte=1, month__lte=12), name="climate_month_in_year"),
            models.CheckConstraint(
                condition=Q(eto_mm__gte=0, eto_mm__lte=MOST_ETO_MM), name="climate_eto_possible"
            ),
            models.CheckConstraint(
                condition=Q(rain_mm__gte=0, rain_mm__lte=MOST_RAIN_MM), name="climate_rain_possible"
            ),
        ]

    def __str__(self) -> str:
        return f"{MONTHS[self.month - 1]}: {self.eto_text}, rain {self.rain_text}"


class WateringRules(Versioned):
    """Allowed days and hours, a cap, and what the programme reckons with. Nothing set: no limit."""

    site = models.OneToOneField(Site, on_delete=models.PROTECT, related_name="watering_rules")
    weekdays = models.JSONField(default=list)  # 0 is Monday; empty: every day
    from_time = models.TimeField(null=True, blank=True)
    to_time = models.TimeField(null=True, blank=True)
    monthly_cap_l = models.FloatField(null=True, blank=True)
    monthly_cap_text = models.CharField(max_length=60, blank=True)
    rain_share_pct = models.PositiveSmallIntegerField(default=round(100 * RAIN_SHARE))
    multiplier = models.CharField(
        max_length=12,
        choices=[("scheduling", "1 / (0.4 + 0.6 DU)"), ("low_quarter", "1 / DU of the low quarter")],
        default="scheduling",
    )

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(from_time__isnull=True, to_time__isnull=True)
                | Q(from_time__isnull=False, to_time__isnull=False),
                name="watering_hours_both_or_none",
            ),
            models.CheckConstraint(
                condition=Q(monthly_cap_l__isnull=True) | Q(monthly_cap_l__gt=0), name="watering_cap_positive"
            ),
            models.CheckConstraint(condition=Q(rain_share_pct__lte=100), name="watering_rain_share"),
        ]

    def __str__(self) -> str:
        return f"{self.site}, watering rules"
