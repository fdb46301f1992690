"""Jobs as the API shows them. No serializer here has a field for money."""

from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

from design.stakeout import Stake
from jobs.digging import digging_on
from jobs.models import Booking, CheckOff, Job, Locate, Result, Task
from office.models import Person


class CrewSerializer(serializers.ModelSerializer[Person]):
    class Meta:
        model = Person
        fields = ["id", "name"]


class JobSerializer(serializers.ModelSerializer[Job]):
    """One line of the list."""

    site = serializers.CharField(source="quote.site.__str__", read_only=True)
    crew = CrewSerializer(many=True, read_only=True)
    is_mine = serializers.BooleanField(read_only=True)

    class Meta:
        model = Job
        fields = ["id", "site", "crew", "start_on", "finished_at", "is_mine"]


class LocateSerializer(serializers.ModelSerializer[Locate]):
    class Meta:
        model = Locate
        fields = ["id", "reference", "placed_on", "clear_from", "expires_on", "members", "answers_complete"]


class BookingSerializer(serializers.ModelSerializer[Booking]):
    class Meta:
        model = Booking
        fields = ["trade", "firm", "phone", "licence_number", "booked_on", "done_on", "note"]


class DiggingSerializer(serializers.Serializer[Any]):
    """Whether anybody may dig today, and why."""

    is_open = serializers.BooleanField()
    state = serializers.ChoiceField(["none", "waiting", "unanswered", "valid", "expired", "overridden"])
    sentence = serializers.CharField()
    locate = LocateSerializer(allow_null=True)


class CheckOffSerializer(serializers.ModelSerializer[CheckOff]):
    by = serializers.CharField(source="by.name", read_only=True)

    class Meta:
        model = CheckOff
        fields = ["id", "task", "result", "note", "by", "at", "device_at"]


class TaskSerializer(serializers.ModelSerializer[Task]):
    checkoffs = CheckOffSerializer(many=True, read_only=True)

    class Meta:
        model = Task
        fields = ["id", "order", "kind", "ref", "title", "digs", "checkoffs"]


class TieSerializer(serializers.Serializer[Any]):
    first = serializers.CharField()
    second = serializers.CharField()
    first_m = serializers.FloatField()
    second_m = serializers.FloatField()
    angle_deg = serializers.FloatField()
    side = serializers.ChoiceField(["left", "right", "on the line"])
    error_m = serializers.SerializerMethodField()

    def get_error_m(self, tie: Any) -> float | None:
        """None where the tapes lie in one line, so that no error can be given."""
        return tie.error_m if tie.error_m < 1000 else None


class CheckSerializer(serializers.Serializer[Any]):
    mark = serializers.CharField()
    distance_m = serializers.FloatField()


class StakeSerializer(serializers.Serializer[Stake]):
    """A point to set out with two tapes; ``at`` is x east and y north in site metres."""

    id = serializers.CharField()
    kind = serializers.ChoiceField(["head", "valve", "controller", "trench turn", "sleeve end"])
    label = serializers.CharField()  # type: ignore[assignment]  # the field of that name, not its label
    at = serializers.ListField(child=serializers.FloatField())
    tie = TieSerializer(allow_null=True)
    check = CheckSerializer(allow_null=True)
    caution = serializers.CharField()


class RunSerializer(serializers.Serializer[Any]):
    """A trench as it is dug."""

    id = serializers.CharField()
    path = serializers.ListField(child=serializers.ListField(child=serializers.FloatField()))
    length_m = serializers.FloatField()
    depth_m = serializers.FloatField()
    method = serializers.ChoiceField(["machine", "hand", "bore"])
    role = serializers.ChoiceField(["main", "lateral", "cable"])
    pipes = serializers.ListField(child=serializers.CharField())
    cables = serializers.ListField(child=serializers.CharField())
    soil = serializers.CharField()
    why = serializers.CharField()


class SleeveSerializer(serializers.Serializer[Any]):
    id = serializers.CharField()
    surface = serializers.CharField()
    bored_m = serializers.FloatField()
    sleeve_m = serializers.FloatField()
    existing = serializers.BooleanField()
    pipes = serializers.ListField(child=serializers.CharField())
    cables = serializers.ListField(child=serializers.CharField())


class CableSerializer(serializers.Serializer[Any]):
    id = serializers.CharField()
    from_id = serializers.CharField()
    to_id = serializers.CharField()
    part = serializers.CharField()
    trench_m = serializers.FloatField()
    rise_m = serializers.FloatField()
    slack_m = serializers.FloatField()
    length_m = serializers.FloatField()
    limit_m = serializers.FloatField(allow_null=True)


class JobDetailSerializer(JobSerializer):
    """All that the installer's page holds, in SI units."""

    digging = serializers.SerializerMethodField()
    locates = LocateSerializer(many=True, read_only=True)
    bookings = BookingSerializer(many=True, read_only=True)
    tasks = TaskSerializer(many=True, read_only=True)
    plan = serializers.SerializerMethodField(help_text="The sealed plan, format plan/1")
    stakes = StakeSerializer(many=True, read_only=True, source="typed.stakes")
    trench = RunSerializer(many=True, read_only=True, source="typed.runs")
    sleeves = SleeveSerializer(many=True, read_only=True, source="typed.report.sleeves")
    cables = CableSerializer(many=True, read_only=True, source="typed.report.cables")
    scope = serializers.ListField(child=serializers.CharField(), source="typed.scope", read_only=True)
    excluded = serializers.ListField(child=serializers.CharField(), source="typed.excluded", read_only=True)

    class Meta(JobSerializer.Meta):
        fields = [
            *JobSerializer.Meta.fields, "digging", "locates", "bookings", "tasks", "plan", "stakes",
            "trench", "sleeves", "cables", "scope", "excluded",
        ]  # fmt: skip

    @extend_schema_field(DiggingSerializer)
    def get_digging(self, job: Job) -> Any:
        return DiggingSerializer(digging_on(job, self.context["today"])).data

    @extend_schema_field({"type": "object", "additionalProperties": {}})
    def get_plan(self, job: Job) -> Any:
        return job.snapshot["plan"]


class NewCheckOffSerializer(serializers.Serializer[Any]):
    """``id`` is a UUID made by the sender: the same entry sent twice is kept once."""

    id = serializers.UUIDField()
    task = serializers.IntegerField(min_value=1, max_value=2**63 - 1)
    result = serializers.ChoiceField(choices=Result.choices)
    note = serializers.CharField(max_length=500, required=False, allow_blank=True, default="")
    device_at = serializers.DateTimeField(required=False, allow_null=True, default=None)
