"""Limits of the check that the company has moved."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from office.models import Versioned


class LimitSetting(Versioned):
    """The company's own value of one limit of ``hydraulics.limits``; none: back at the usual one."""

    name = models.CharField(max_length=60, unique=True)
    value = models.FloatField(null=True, blank=True)
    reason = models.CharField(max_length=300, blank=True)
    changed_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT)

    class Meta:
        ordering = ["name"]
        constraints = [
            models.CheckConstraint(
                condition=Q(value__isnull=True) | ~Q(reason=""), name="moved_limit_has_a_reason"
            )
        ]

    def __str__(self) -> str:
        return self.name
