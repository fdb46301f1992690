"""The readings of a visit as the supply curve takes them."""

from collections.abc import Mapping

from hydraulics.supply import BucketReading, GaugeReading, Reading
from hydraulics.units import bucket_flow_lpm
from sites.readings import Bucket, VisitData


def bucket_lpm(bucket: Bucket) -> float:
    return bucket_flow_lpm(bucket.volume.value_si, bucket.fill.value_si)


def supply_readings(data: VisitData) -> tuple[Reading, ...]:
    """Flow tests with the height of their tap, where a height was measured for a tap of that name."""
    above = heights_by_tap({height.place: height.height.value_si for height in data.heights})
    gauges = [
        GaugeReading(g.flow.value_si, g.residual.value_si, g.tap, above.get(tap_key(g.tap), 0.0))
        for g in data.gauges
    ]
    buckets = [
        BucketReading(b.volume.value_si, b.fill.value_si, b.tap, above.get(tap_key(b.tap), 0.0))
        for b in data.buckets
    ]
    return (*gauges, *buckets)


def tap_key(name: str) -> str:
    """Taps are told apart without regard to capitals and blanks."""
    return " ".join(name.casefold().split())


def heights_by_tap(heights: Mapping[str, float]) -> dict[str, float]:
    """Metres above the tap of the static reading, by ``tap_key`` of the place that was measured."""
    return {tap_key(place): metres for place, metres in heights.items() if tap_key(place)}
