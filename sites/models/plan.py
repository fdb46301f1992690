"""Plans: one immutable document per revision."""

from django.conf import settings
from django.db import models

from office.models import Versioned
from sites.models.customer import Site


class PlanRevision(models.Model):
    """One plan/1 document. A saved revision never changes; an edit makes the next one."""

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="plans")
    number = models.PositiveIntegerField()
    name = models.CharField(max_length=120, blank=True)
    document = models.JSONField()
    digest = models.CharField(max_length=64)
    began_from = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT)

    class Meta:
        ordering = ["site", "-number"]
        constraints = [models.UniqueConstraint(fields=["site", "number"], name="plan_number_once_per_site")]

    def __str__(self) -> str:
        return f"{self.site}, plan {self.number}"


class PlanDraft(Versioned):
    """What one person is drawing, saved while they draw; it may not be a valid plan yet.

    ``began_from`` is the number of the revision that it was begun from, 0 for none.
    """

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="drafts")
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    began_from = models.PositiveIntegerField()
    name = models.CharField(max_length=120, blank=True)
    document = models.JSONField()

    class Meta:
        ordering = ["site", "person"]
        constraints = [models.UniqueConstraint(fields=["site", "person"], name="one_draft_each")]

    def __str__(self) -> str:
        return f"{self.site}, draft of {self.person}"
