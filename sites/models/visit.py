"""What a visit measured.

Every figure stands in two columns: in SI with the unit in the name, and as it was typed
(``static_kpa`` beside ``static_text``). Blank is not zero.
"""

from django.conf import settings
from django.db import models
from django.db.models import Q

from office.models import Versioned
from sites.models.customer import Site

MATERIALS = [
    ("unknown", "not known"),
    ("copper", "copper"),
    ("pe", "PE"),
    ("pvc", "PVC"),
    ("steel", "steel"),
]


def _typed() -> models.CharField:
    return models.CharField(max_length=60, blank=True)


class Visit(Versioned):
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="visits")
    visited_on = models.DateField()
    visited_at = models.TimeField(null=True, blank=True)
    measured_by = models.CharField(max_length=150)
    weather = models.CharField(max_length=120, blank=True)
    static_kpa = models.FloatField(null=True, blank=True)
    static_text = _typed()
    static_tap = models.CharField(max_length=120, blank=True)
    meter = models.CharField(max_length=40, blank=True)  # code of a part
    meter_read = models.CharField(max_length=80, blank=True)  # what stands on it
    service_material = models.CharField(max_length=10, choices=MATERIALS, default="unknown")
    service_bore_mm = models.FloatField(null=True, blank=True)
    service_bore_text = _typed()
    service_length_m = models.FloatField(null=True, blank=True)
    service_length_text = _typed()
    # Heights count from the tap where pressure was read: up is positive.
    connection_z_m = models.FloatField(null=True, blank=True)
    connection_z_text = _typed()
    remarks = models.TextField(blank=True, max_length=5000)
    confirmed = models.JSONField(default=list, blank=True)  # unusual figures said to be right
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT)

    class Meta:
        ordering = ["-visited_on", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(static_kpa__isnull=True) | Q(static_kpa__gt=0), name="static_positive"
            ),
            models.CheckConstraint(
                condition=Q(service_bore_mm__isnull=True) | Q(service_bore_mm__gt=0), name="bore_positive"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.site}, visit of {self.visited_on}"


class FlowTest(models.Model):
    """A bucket filled within a time, or a gauge read while a flow ran."""

    BUCKET, GAUGE = "bucket", "gauge"

    visit = models.ForeignKey(Visit, on_delete=models.CASCADE, related_name="tests")
    position = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=10, choices=[(BUCKET, "bucket"), (GAUGE, "gauge")])
    tap = models.CharField(max_length=120, blank=True)
    volume_l = models.FloatField(null=True, blank=True)
    volume_text = _typed()
    fill_s = models.FloatField(null=True, blank=True)
    fill_text = _typed()
    flow_lpm = models.FloatField(null=True, blank=True)
    flow_text = _typed()
    residual_kpa = models.FloatField(null=True, blank=True)
    residual_text = _typed()

    class Meta:
        ordering = ["position"]
        constraints = [
            models.CheckConstraint(
                condition=Q(kind="bucket", volume_l__gt=0, fill_s__gt=0)
                | Q(kind="gauge", flow_lpm__gt=0, residual_kpa__gte=0),
                name="flow_test_complete",
            )
        ]

    def __str__(self) -> str:
        if self.kind == self.BUCKET:
            return f"{self.volume_text} in {self.fill_text}"
        return f"{self.residual_text} at {self.flow_text}"


class HeightReading(models.Model):
    """Height of a place above (or below) the tap where pressure was read."""

    visit = models.ForeignKey(Visit, on_delete=models.CASCADE, related_name="heights")
    position = models.PositiveSmallIntegerField()
    place = models.CharField(max_length=120)
    height_m = models.FloatField()
    height_text = _typed()

    class Meta:
        ordering = ["position"]

    def __str__(self) -> str:
        return f"{self.place}: {self.height_text}"
