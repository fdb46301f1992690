"""Customers, their sites, what a visit measured, and the plans drawn for them."""

from django.conf import settings
from django.db import models

from office.models import Versioned


class Customer(Versioned):
    name = models.CharField(max_length=200)
    email = models.EmailField("e-mail", blank=True)
    phone = models.CharField(max_length=40, blank=True)
    street = models.CharField(max_length=200, blank=True)
    postcode = models.CharField("postal code", max_length=20, blank=True)
    town = models.CharField(max_length=100, blank=True)
    country = models.CharField(max_length=2, blank=True)
    notes = models.TextField(blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Site(Versioned):
    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="sites")
    name = models.CharField(max_length=120, help_text="What you call it: house, yard, allotment")
    street = models.CharField(max_length=200, blank=True)
    postcode = models.CharField("postal code", max_length=20, blank=True)
    town = models.CharField(max_length=100, blank=True)
    country = models.CharField(max_length=2, blank=True)
    authority_notes = models.TextField(
        "local authority", blank=True, help_text="Permit, backflow rule, watering days, notice before digging"
    )
    access_notes = models.TextField("access", blank=True, help_text="Gate width, steps, dog, parking")
    units = models.CharField(
        max_length=10, choices=[("metric", "metric"), ("us", "US customary")], default="metric"
    )
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["customer__name", "name"]

    def __str__(self) -> str:
        return f"{self.customer}, {self.name}"


class PlanRevision(models.Model):
    """One plan/1 document. A saved revision never changes; an edit makes the next one."""

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="plans")
    number = models.PositiveIntegerField()
    name = models.CharField(max_length=120, blank=True)
    document = models.JSONField()
    digest = models.CharField(max_length=64)
    began_from = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT)

    class Meta:
        ordering = ["site", "-number"]
        constraints = [
            models.UniqueConstraint(fields=["site", "number"], name="plan_number_once_per_site")
        ]

    def __str__(self) -> str:
        return f"{self.site}, plan {self.number}"
