"""The company, its people and the audit trail."""

from django.contrib.auth.models import AbstractUser, BaseUserManager
from django.db import models


class Versioned(models.Model):
    """A row that two people may edit: each save must name the version that it began from."""

    version = models.PositiveIntegerField(default=1, editable=False)
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        abstract = True


class Company(Versioned):
    """The one contractor that this installation serves."""

    name = models.CharField(max_length=200)
    street = models.CharField(max_length=200, blank=True)
    postcode = models.CharField("postal code", max_length=20, blank=True)
    town = models.CharField(max_length=100, blank=True)
    country = models.CharField(max_length=2, default="DE", help_text="ISO 3166 code of two letters")
    phone = models.CharField(max_length=40, blank=True)
    email = models.EmailField(blank=True)
    licence = models.CharField("licence and insurance", max_length=200, blank=True)
    locale = models.CharField(max_length=12, default="en_GB")
    currency = models.CharField(max_length=3, default="EUR")
    units = models.CharField(
        max_length=10, choices=[("metric", "metric"), ("us", "US customary")], default="metric"
    )
    paper = models.CharField(max_length=10, choices=[("A4", "A4"), ("letter", "Letter")], default="A4")
    accent = models.CharField("accent colour", max_length=7, default="#1f5f5b")
    locate_working_days = models.PositiveSmallIntegerField(
        "notice before digging, working days",
        default=4,
        help_text="Rules differ by place: take yours from the locate service.",
    )
    locate_valid_days = models.PositiveSmallIntegerField("a locate stays valid, days", default=21)
    terms = models.TextField("terms on each proposal", blank=True)

    class Meta:
        verbose_name_plural = "companies"

    def __str__(self) -> str:
        return self.name


class Role(models.TextChoices):
    OWNER = "owner", "Owner"
    OFFICE = "office", "Office"
    INSTALLER = "installer", "Installer"


class PersonManager(BaseUserManager["Person"]):
    def create_user(self, email: str, password: str | None = None, **fields: object) -> "Person":
        person = self.model(email=self.normalize_email(email).lower(), **fields)
        person.set_password(password)
        person.save(using=self._db)
        return person

    def create_superuser(self, email: str, password: str | None = None, **fields: object) -> "Person":
        return self.create_user(email, password, role=Role.OWNER, **fields)


class Person(AbstractUser):
    """Somebody who works here. Customers never log in."""

    username = None  # type: ignore[assignment]  # people log in by e-mail
    first_name = None  # type: ignore[assignment]  # one name field serves every culture
    last_name = None  # type: ignore[assignment]  # as above
    email = models.EmailField("e-mail", unique=True)
    name = models.CharField(max_length=150)
    role = models.CharField(max_length=10, choices=Role.choices, default=Role.INSTALLER)

    USERNAME_FIELD = "email"
    REQUIRED_FIELDS = ["name"]
    objects = PersonManager()  # type: ignore[assignment,misc]  # AbstractUser expects user names

    def __str__(self) -> str:
        return self.name or self.email

    @property
    def is_owner(self) -> bool:
        return self.role == Role.OWNER

    @property
    def is_office(self) -> bool:
        """Owner and office staff: those who may see prices."""
        return self.role in (Role.OWNER, Role.OFFICE)

    @property
    def is_installer(self) -> bool:
        return self.role == Role.INSTALLER

    def get_full_name(self) -> str:
        return self.name

    def get_short_name(self) -> str:
        return self.name


class AuditEvent(models.Model):
    """Who did what, and when. Never changed, never deleted."""

    at = models.DateTimeField(auto_now_add=True, db_index=True)
    person = models.ForeignKey(Person, null=True, blank=True, on_delete=models.PROTECT)
    verb = models.CharField(max_length=60)  # such as quote.issued
    subject = models.CharField(max_length=80)  # such as quote:17
    detail = models.JSONField(default=dict)

    class Meta:
        ordering = ["-at", "-id"]
        indexes = [models.Index(fields=["subject"])]

    def __str__(self) -> str:
        return f"{self.verb} {self.subject}"

    @property
    def words(self) -> str:
        """What was done, without the trail's dots: quote line edited."""
        return self.verb.replace(".", " ").replace("_", " ").capitalize()

    @property
    def number(self) -> str:
        """The number of what it was done to."""
        return self.subject.partition(":")[2]
