"""The customer's way in, and the customer's yes."""

from django.conf import settings
from django.db import models

from quoting.models.quote import Quote


class CustomerLink(models.Model):
    """An address that opens one quote. Only a hash of its token is kept, so nobody can read it here."""

    quote = models.ForeignKey(Quote, on_delete=models.CASCADE, related_name="links")
    token_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT)
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)
    first_opened_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-made_at", "-id"]

    def __str__(self) -> str:
        return f"link to {self.quote_id}"


class Acceptance(models.Model):
    """A yes to one quote, once. Written once and never changed."""

    class By(models.TextChoices):
        LINK = "link", "On the customer's page"
        PAPER = "paper", "On paper"

    quote = models.OneToOneField(Quote, on_delete=models.PROTECT, related_name="acceptance")
    by = models.CharField(max_length=10, choices=By.choices)
    name = models.CharField(max_length=200)
    at = models.DateTimeField()
    signed_on = models.DateField()
    address = models.GenericIPAddressField(null=True, blank=True)
    user_agent = models.CharField(max_length=400, blank=True)
    pdf_sha256 = models.CharField(max_length=64)
    options = models.JSONField(default=list, blank=True)  # ids of the lines chosen beside what is included
    net = models.DecimalField(max_digits=12, decimal_places=2)
    tax = models.DecimalField(max_digits=12, decimal_places=2)
    total = models.DecimalField(max_digits=12, decimal_places=2)
    link = models.ForeignKey(CustomerLink, null=True, blank=True, on_delete=models.PROTECT)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT)

    class Meta:
        constraints = [
            models.CheckConstraint(condition=~models.Q(name=""), name="acceptance_has_a_name"),
        ]

    def __str__(self) -> str:
        return f"{self.name} accepted {self.quote_id}"
