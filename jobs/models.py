"""Jobs: what an accepted quote becomes, and what is kept of the work."""

from django.conf import settings
from django.db import models
from django.utils import timezone

from office.models import Versioned
from quoting.models import Quote


class Holiday(models.Model):
    """A weekday on which locate services do not count time."""

    date = models.DateField(unique=True)
    name = models.CharField(max_length=80)

    class Meta:
        ordering = ["date"]

    def __str__(self) -> str:
        return f"{self.date}, {self.name}"


class Job(Versioned):
    """``snapshot`` is the plan, the report and the scope of the sealed quote, without any price."""

    quote = models.OneToOneField(Quote, on_delete=models.PROTECT, related_name="job")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    crew = models.ManyToManyField(settings.AUTH_USER_MODEL, blank=True, related_name="jobs")
    start_on = models.DateField("start", null=True, blank=True, db_index=True)
    finished_at = models.DateTimeField(null=True, blank=True)
    snapshot = models.JSONField(editable=False)

    class Meta:
        ordering = [models.F("start_on").asc(nulls_first=True), "id"]

    def __str__(self) -> str:
        return f"Job {self.pk}, {self.quote.site}"


class Locate(Versioned):
    """A request to have buried services located. The newest one of a job counts."""

    job = models.ForeignKey(Job, on_delete=models.CASCADE, related_name="locates")
    reference = models.CharField(max_length=60)
    placed_on = models.DateField("asked for on")
    clear_from = models.DateField("digging may start on")
    expires_on = models.DateField("last day of validity")
    members = models.TextField("owners of buried lines", max_length=2000, blank=True)
    answers_complete = models.BooleanField("all of them have marked or answered", default=False)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-placed_on", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(clear_from__gt=models.F("placed_on")), name="locate_clears_after_request"
            ),
            models.CheckConstraint(
                condition=models.Q(expires_on__gte=models.F("clear_from")), name="locate_expires_after_clear"
            ),
        ]

    def __str__(self) -> str:
        return self.reference


class DigOverride(models.Model):
    """Digging opened without a valid locate. Written once: who took it on themselves, and why."""

    job = models.ForeignKey(Job, on_delete=models.CASCADE, related_name="overrides")
    name = models.CharField("who takes responsibility", max_length=150)
    reason = models.CharField(max_length=500)
    last_day = models.DateField("until, that day included")
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["-recorded_at", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(name="") & ~models.Q(reason=""), name="override_has_name_and_reason"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name}: {self.reason}"


class Trade(models.TextChoices):
    PLUMBER = "plumber", "Licensed plumber"
    ELECTRICIAN = "electrician", "Licensed electrician"


class Booking(Versioned):
    """A licensed trade that a job waits for."""

    job = models.ForeignKey(Job, on_delete=models.CASCADE, related_name="bookings")
    trade = models.CharField(max_length=12, choices=Trade.choices)
    firm = models.CharField("firm or person", max_length=150, blank=True)
    phone = models.CharField(max_length=40, blank=True)
    licence_number = models.CharField("licence number", max_length=60, blank=True)
    booked_on = models.DateField("comes on", null=True, blank=True)
    done_on = models.DateField("done on", null=True, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ["-trade"]
        constraints = [
            models.UniqueConstraint(fields=["job", "trade"], name="one_booking_per_trade"),
            models.CheckConstraint(
                condition=models.Q(done_on__isnull=True) | ~models.Q(licence_number=""),
                name="licensed_work_done_has_a_licence",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_trade_display()}: {self.firm or 'nobody yet'}"


class TaskKind(models.TextChoices):
    LOCATE = "locate", "Locate request"
    PLUMBER = "plumber", "Licensed plumber"
    ELECTRICIAN = "electrician", "Licensed electrician"
    BASE = "base", "Distance between marks"
    STAKE = "stake", "Point set out"
    TRENCH = "trench", "Trench stretch"
    SLEEVE = "sleeve", "Crossing under a hard surface"
    PIPE_TEST = "pipe_test", "Pressure test"
    VALVE = "valve", "Valve"
    CABLE = "cable", "Cable run"
    CONTROLLER = "controller", "Controller"
    HEAD = "head", "Head"
    FLUSH = "flush", "Flush and adjust"
    WALK = "walk", "Walk-through"


class Task(models.Model):
    """One thing to do and to check off. ``ref`` is the id of what it is about, in the snapshot."""

    job = models.ForeignKey(Job, on_delete=models.CASCADE, related_name="tasks")
    order = models.PositiveIntegerField()
    kind = models.CharField(max_length=12, choices=TaskKind.choices)
    ref = models.CharField(max_length=90, blank=True)
    title = models.CharField(max_length=200)
    digs = models.BooleanField(default=False)  # waits for a valid locate

    class Meta:
        ordering = ["order", "id"]
        constraints = [
            models.UniqueConstraint(fields=["job", "kind", "ref"], name="task_once_per_thing"),
        ]

    def __str__(self) -> str:
        return self.title


class Result(models.TextChoices):
    DONE = "done", "Done"
    SHORT = "short", "Something is missing"
    PROBLEM = "problem", "Problem"
    UNDONE = "undone", "Taken back"


class CheckOff(models.Model):
    """What somebody said about a task. Never changed; the newest one of a task counts.

    ``id`` is made by the phone, so that sending it twice keeps it once.
    """

    id = models.UUIDField(primary_key=True)
    task = models.ForeignKey(Task, on_delete=models.CASCADE, related_name="checkoffs")
    result = models.CharField(max_length=8, choices=Result.choices)
    note = models.CharField(max_length=500, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now, editable=False)
    device_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["at", "id"]
        indexes = [models.Index(fields=["task", "at"])]

    def __str__(self) -> str:
        return f"{self.task}: {self.get_result_display()}"
