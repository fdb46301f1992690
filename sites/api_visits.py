"""A visit as the API takes and gives it: figures as typed text, with SI beside them."""

from collections.abc import Mapping
from typing import Any

from rest_framework import serializers

from sites.api_fields import TypedQuantity
from sites.api_serializers import VersionField
from sites.errors import VisitRefused
from sites.models import FlowTest, HeightReading, Visit
from sites.models.visit import MATERIALS
from sites.readings import Bucket, Gauge, Height, VisitData

MAX_ROWS = 40
FIGURES = {FlowTest.BUCKET: ("volume_text", "fill_text"), FlowTest.GAUGE: ("flow_text", "residual_text")}


class FlowTestSerializer(serializers.ModelSerializer[FlowTest]):
    """A bucket test has volume_text and fill_text, a gauge test flow_text and residual_text."""

    volume_text = TypedQuantity("volume", required=False, allow_blank=True, default="")
    fill_text = TypedQuantity("time", required=False, allow_blank=True, default="")
    flow_text = TypedQuantity("flow", required=False, allow_blank=True, default="")
    residual_text = TypedQuantity("pressure", required=False, allow_blank=True, default="")

    class Meta:
        model = FlowTest
        fields = [
            "kind", "tap", "volume_text", "volume_l", "fill_text", "fill_s", "flow_text", "flow_lpm",
            "residual_text", "residual_kpa",
        ]  # fmt: skip
        read_only_fields = ["volume_l", "fill_s", "flow_lpm", "residual_kpa"]

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        missing = [name for name in FIGURES[attrs["kind"]] if attrs.get(name) is None]
        if missing:
            raise serializers.ValidationError(dict.fromkeys(missing, f"A {attrs['kind']} test needs this."))
        return attrs


class HeightSerializer(serializers.ModelSerializer[HeightReading]):
    height_text = TypedQuantity("length")

    class Meta:
        model = HeightReading
        fields = ["place", "height_text", "height_m"]
        read_only_fields = ["height_m"]


class VisitSerializer(serializers.ModelSerializer[Visit]):
    """``confirmed`` holds tokens of questions answered with yes; a refusal lists those still asked."""

    version = VersionField(required=False)
    static_text = TypedQuantity("pressure", required=False, allow_blank=True, default="")
    service_material = serializers.ChoiceField(choices=MATERIALS, default="unknown")
    service_bore_text = TypedQuantity("bore", required=False, allow_blank=True, default="")
    service_length_text = TypedQuantity("length", required=False, allow_blank=True, default="")
    connection_z_text = TypedQuantity("length", required=False, allow_blank=True, default="")
    tests = FlowTestSerializer(many=True, required=False, max_length=MAX_ROWS)  # type: ignore[call-arg]
    heights = HeightSerializer(many=True, required=False, max_length=MAX_ROWS)  # type: ignore[call-arg]
    confirmed = serializers.ListField(
        child=serializers.CharField(max_length=120), required=False, max_length=400
    )

    class Meta:
        model = Visit
        fields = [
            "id", "version", "visited_on", "visited_at", "measured_by", "weather", "static_text",
            "static_kpa", "static_tap", "meter", "meter_read", "service_material", "service_bore_text",
            "service_bore_mm", "service_length_text", "service_length_m", "connection_z_text",
            "connection_z_m", "remarks", "tests", "heights", "confirmed",
        ]  # fmt: skip
        read_only_fields = ["static_kpa", "service_bore_mm", "service_length_m", "connection_z_m"]


def visit_data(fields: Mapping[str, Any]) -> VisitData:
    """Readings from what ``VisitSerializer`` has validated."""
    tests = fields.get("tests", ())
    plain = {
        name: fields[name]
        for name in (
            "visited_on", "visited_at", "measured_by", "weather", "static_tap", "meter", "meter_read",
            "service_material", "remarks",
        )
        if name in fields
    }  # fmt: skip
    return VisitData(
        static=fields.get("static_text"),
        service_bore=fields.get("service_bore_text"),
        service_length=fields.get("service_length_text"),
        connection_z=fields.get("connection_z_text"),
        buckets=tuple(
            Bucket(t["volume_text"], t["fill_text"], t.get("tap", ""))
            for t in tests
            if t["kind"] == FlowTest.BUCKET
        ),
        gauges=tuple(
            Gauge(t["flow_text"], t["residual_text"], t.get("tap", ""))
            for t in tests
            if t["kind"] == FlowTest.GAUGE
        ),
        heights=tuple(Height(h["place"], h["height_text"]) for h in fields.get("heights", ())),
        **plain,
    )


def visit_refused(refusal: VisitRefused) -> serializers.ValidationError:
    """Field -> sentences; ``confirmed`` lists the tokens that would answer the questions with yes."""
    said: dict[str, list[str]] = {}
    for remark in (*refusal.refusals, *refusal.questions):
        said.setdefault(remark.where, []).append(remark.sentence)
    if refusal.questions and not refusal.refusals:
        said["confirmed"] = [question.token for question in refusal.questions]
    return serializers.ValidationError(said)
