"""Whom we work for, and where."""

from django.db import models
from django.db.models import Value
from django.db.models.functions import Replace

from office.models import Versioned


def _without_marks(column: str) -> Replace:
    """The column without what people put between the digits of a phone number."""
    plain = Replace(models.F(column), Value(" "), Value(""))
    for mark in "-/().+\u00a0":
        plain = Replace(plain, Value(mark), Value(""))
    return plain


class Customer(Versioned):
    name = models.CharField(max_length=200)
    email = models.EmailField("e-mail", blank=True)
    phone = models.CharField(max_length=40, blank=True)
    # Kept by the database, so that a number is found however it was typed.
    phone_digits = models.GeneratedField(
        expression=_without_marks("phone"), output_field=models.CharField(max_length=40), db_persist=True
    )
    street = models.CharField(max_length=200, blank=True)
    postcode = models.CharField("postal code", max_length=20, blank=True)
    town = models.CharField(max_length=100, blank=True)
    country = models.CharField(max_length=2, blank=True, help_text="Two letters, such as DE or US")
    notes = models.TextField(blank=True, max_length=5000)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


class Site(Versioned):
    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="sites")
    name = models.CharField(max_length=120, help_text="What you call it: house, yard, allotment")
    street = models.CharField(max_length=200, blank=True)
    postcode = models.CharField("postal code", max_length=20, blank=True)
    town = models.CharField(max_length=100, blank=True)
    country = models.CharField(max_length=2, blank=True, help_text="Two letters, such as DE or US")
    authority_notes = models.TextField(
        "local authority",
        blank=True,
        max_length=5000,
        help_text="Permit, backflow rule, watering days, notice before digging",
    )
    access_notes = models.TextField(
        "access", blank=True, max_length=5000, help_text="Gate width, steps, dog, parking"
    )
    units = models.CharField(
        max_length=10,
        choices=[("metric", "metric"), ("us", "US customary")],
        default="metric",
        help_text="What a bare number means on this site's pages; any other unit may be typed with it",
    )
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["customer__name", "name", "pk"]

    def __str__(self) -> str:
        return f"{self.customer}, {self.name}"
