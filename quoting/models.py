"""Quotes and what is kept of them."""

from django.conf import settings
from django.db import models

from office.models import Versioned
from sites.models import PlanRevision, Site


class Status(models.TextChoices):
    DRAFT = "draft", "Draft"
    ISSUED = "issued", "Issued"
    ACCEPTED = "accepted", "Accepted"
    DECLINED = "declined", "Declined"
    LAPSED = "lapsed", "Lapsed"
    SUPERSEDED = "superseded", "Superseded"


class Quote(Versioned):
    """One revision of one offer. ``sealed`` is what was issued, and never changes."""

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="quotes")
    plan = models.ForeignKey(PlanRevision, on_delete=models.PROTECT, related_name="quotes")
    status = models.CharField(max_length=12, choices=Status.choices, default=Status.DRAFT, db_index=True)
    number = models.PositiveIntegerField(null=True, blank=True)  # gapless, given when issued
    revision = models.PositiveIntegerField(default=1)
    replaces = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT)
    title = models.CharField(max_length=120, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT)
    issued_at = models.DateTimeField(null=True, blank=True)
    valid_until = models.DateField(null=True, blank=True)
    total = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)
    sealed = models.JSONField(null=True, blank=True)
    digest = models.CharField(max_length=64, blank=True)

    class Meta:
        ordering = ["-made_at"]
