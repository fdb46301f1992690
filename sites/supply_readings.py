"""The readings of a visit as the supply curve takes them."""

from hydraulics.supply import BucketReading, GaugeReading, Reading
from hydraulics.units import bucket_flow_lpm
from sites.readings import Bucket, VisitData


def bucket_lpm(bucket: Bucket) -> float:
    return bucket_flow_lpm(bucket.volume.value_si, bucket.fill.value_si)


def supply_readings(data: VisitData) -> tuple[Reading, ...]:
    gauges = [GaugeReading(g.flow.value_si, g.residual.value_si, g.tap) for g in data.gauges]
    buckets = [BucketReading(b.volume.value_si, b.fill.value_si, b.tap) for b in data.buckets]
    return (*gauges, *buckets)
