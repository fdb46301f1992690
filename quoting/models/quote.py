"""A quote, what it was worked out from, and what happened to it."""

from typing import Any

from django.conf import settings
from django.db import models

from office.models import Versioned
from quoting.models.policy import TaxBy
from sites.models import PlanRevision, Site


class Status(models.TextChoices):
    DRAFT = "draft", "Draft"
    ISSUED = "issued", "Issued"
    ACCEPTED = "accepted", "Accepted"
    DECLINED = "declined", "Declined"
    LAPSED = "lapsed", "Lapsed"
    SUPERSEDED = "superseded", "Superseded"


class Quote(Versioned):
    """One revision of one offer. Lines and sums may change while it is a draft, never after."""

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="quotes")
    plan = models.ForeignKey(PlanRevision, on_delete=models.PROTECT, related_name="quotes")
    status = models.CharField(max_length=12, choices=Status.choices, default=Status.DRAFT)
    number_year = models.PositiveSmallIntegerField(default=0)  # 0: numbers run on over the years
    number = models.PositiveIntegerField(null=True, blank=True)  # gapless, given when issued
    revision = models.PositiveIntegerField(default=1)
    replaces = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="replaced_by"
    )
    title = models.CharField(max_length=120, blank=True)
    message = models.TextField("words to the customer", max_length=4000, blank=True)
    machine_access = models.BooleanField("a trencher gets in", default=True)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT)
    issued_at = models.DateTimeField(null=True, blank=True)
    valid_until = models.DateField(null=True, blank=True)
    decided_at = models.DateTimeField(null=True, blank=True)  # accepted or declined
    net = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)
    tax_by = models.CharField(max_length=6, choices=TaxBy.choices, default=TaxBy.TOTAL)
    tax = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)
    total = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)

    class Meta:
        ordering = ["-made_at", "-id"]
        indexes = [
            models.Index(fields=["-made_at", "-id"], name="quote_newest_first"),
            models.Index(fields=["status", "-made_at", "-id"], name="quote_status_newest"),
            models.Index(fields=["number"], name="quote_number"),
            models.Index(fields=["status", "valid_until"], name="quote_running_out"),
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["number_year", "number", "revision"],
                condition=models.Q(number__isnull=False),
                name="quote_number_and_revision_once",
            ),
            models.CheckConstraint(
                condition=models.Q(status="draft")
                | models.Q(
                    number__isnull=False,
                    issued_at__isnull=False,
                    total__isnull=False,
                    valid_until__isnull=False,
                ),
                name="quote_out_has_number_and_total",
            ),
            models.CheckConstraint(condition=models.Q(revision__gte=1), name="quote_revision_from_one"),
        ]

    def __str__(self) -> str:
        return f"Quote {self.reference}"

    @property
    def reference(self) -> str:
        """The number as people read it: ``2026-0007``, with ``/2`` for its second revision."""
        if self.number is None:
            return f"draft {self.pk}"
        number = f"{self.number_year}-{self.number:04d}" if self.number_year else f"{self.number:05d}"
        return number if self.revision == 1 else f"{number}/{self.revision}"

    @property
    def is_draft(self) -> bool:
        return self.status == Status.DRAFT

    @property
    def seal(self) -> Any:
        """What was sealed when it was issued, or none."""
        return getattr(self, "sealed_proposal", None)


class Basis(models.Model):
    """What the lines of a quote were worked out from; kept beside it, for it is large."""

    quote = models.OneToOneField(Quote, on_delete=models.CASCADE, related_name="basis")
    report = models.JSONField()  # design.report.report_to_dict
    rates = models.JSONField()  # the policy and production rates of that moment
    notes = models.JSONField(default=list, blank=True)  # sentences for the office
    worked_out_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"basis of {self.quote_id}"


class QuoteEvent(models.Model):
    """One step in a quote's life. Never changed."""

    quote = models.ForeignKey(Quote, on_delete=models.CASCADE, related_name="events")
    at = models.DateTimeField(auto_now_add=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT)  # none: not us
    from_status = models.CharField(max_length=12, choices=Status.choices, blank=True)
    to_status = models.CharField(max_length=12, choices=Status.choices)
    reason = models.CharField(max_length=500, blank=True)
    detail = models.JSONField(default=dict, blank=True)

    class Meta:
        ordering = ["at", "id"]

    def __str__(self) -> str:
        return f"{self.quote_id}: {self.from_status} to {self.to_status}"
