"""Judging the readings of a visit together: what asks, and what cannot be."""

from collections.abc import Iterator
from datetime import date, timedelta

from hydraulics.catalogue import Catalogue, MeterPart
from hydraulics.errors import SupplyContradiction
from hydraulics.friction import velocity_mps
from hydraulics.supply import fit_supply
from hydraulics.units import Quantity
from sites.figures import in_both, written
from sites.plausible_ranges import (
    BORE,
    FILL,
    FLOW,
    HEIGHT,
    RESIDUAL,
    SERVICE_LENGTH,
    STATIC,
    VOLUME,
    judge,
    token,
)
from sites.quantity_field import sentence
from sites.readings import Bucket, Gauge, Remark, Remarks, VisitData
from sites.supply_readings import bucket_lpm, supply_readings

# common practice, no source: runs at one tap agree within 5 %; beyond 10 % one of them is wrong
SPREAD_ASKS, SPREAD_WRONG = 0.05, 0.10
# common practice, no source: 0.3 to 0.95 of the static is left while a tap runs
RESIDUAL_SHARES = (0.30, 0.95)
# common practice, no source: 7.5 ft/s is much, and beyond 3 m/s the bore is not what was written
SERVICE_ASKS_MPS, SERVICE_WRONG_MPS = 2.3, 3.0


def judge_visit(data: VisitData, today: date, parts: Catalogue | None = None) -> Remarks:
    """Every doubt about the readings. What no single figure may be hides what they say together."""
    found = list(_single(data, today))
    for more in (_together(data, parts), _contradictions(data)):
        if all(remark.token for remark in found):
            found += more
    return Remarks(
        tuple(remark for remark in found if not remark.token),
        tuple(remark for remark in found if remark.token),
    )


def _single(data: VisitData, today: date) -> Iterator[Remark]:
    if data.visited_on > today + timedelta(days=1):
        yield Remark("visited_on", f"{data.visited_on} lies ahead; a visit is written down after it.")
    if data.visited_on < today - timedelta(days=3650):
        yield Remark("visited_on", f"{data.visited_on} is more than ten years ago; look at the year again.")
    yield from judge("static", data.static, STATIC)
    for place, bucket in enumerate(data.buckets):
        yield from judge(f"bucket-{place}-volume", bucket.volume, VOLUME)
        yield from judge(f"bucket-{place}-fill", bucket.fill, FILL)
    for place, gauge in enumerate(data.gauges):
        yield from judge(f"gauge-{place}-flow", gauge.flow, FLOW)
        yield from judge(f"gauge-{place}-residual", gauge.residual, RESIDUAL)
    yield from judge("service_bore", data.service_bore, BORE)
    yield from judge("service_length", data.service_length, SERVICE_LENGTH)
    yield from judge("connection_z", data.connection_z, HEIGHT)
    for place, height in enumerate(data.heights):
        yield from judge(f"height-{place}-height", height.height, HEIGHT)


def _together(data: VisitData, parts: Catalogue | None) -> Iterator[Remark]:
    for place, bucket in enumerate(data.buckets):
        yield from _bucket_flow(place, bucket)
    yield from _spread(data.buckets)
    for place, gauge in enumerate(data.gauges):
        yield from _residual(place, gauge, data.static)
    yield from _service(data)
    yield from _meter(data, parts)


def _bucket_flow(place: int, bucket: Bucket) -> Iterator[Remark]:
    flow = bucket_lpm(bucket)
    if FLOW.low <= flow <= FLOW.high:
        return
    where = f"bucket-{place}-fill"
    shown = in_both(flow, "flow", "gpm" if bucket.volume.unit == "gal" else "L/min")
    if flow > FLOW.most:
        yield Remark(
            where, f"That would be {shown}, more than any tap gives. Look at the volume and the time."
        )
        return
    side = "little" if flow < FLOW.low else "much"
    yield Remark(
        where, f"That is {shown}, which is {side} for a tap. Is the mark on the bucket right?",
        token(where, Quantity(flow, "L/min", ""), f"flow-{side}"),
    )  # fmt: skip


def _spread(buckets: tuple[Bucket, ...]) -> Iterator[Remark]:
    """Runs at one tap against each other; the remark stands at the last of them."""
    by_tap: dict[str, list[int]] = {}
    for place, bucket in enumerate(buckets):
        by_tap.setdefault(bucket.tap.casefold(), []).append(place)
    for places in by_tap.values():
        flows = [bucket_lpm(buckets[place]) for place in places]
        spread = (max(flows) - min(flows)) / (sum(flows) / len(flows))
        if len(places) < 2 or spread <= SPREAD_ASKS:
            continue
        advice = (
            "Repeat the odd one." if spread <= SPREAD_WRONG else "One of them is wrong: repeat or clear it."
        )
        where = f"bucket-{places[-1]}-fill"
        mark = token(where, Quantity(spread, "", ""), "spread")
        yield Remark(where, f"The {len(places)} runs at this tap differ by {spread:.0%}. {advice}", mark)


def _residual(place: int, gauge: Gauge, static: Quantity | None) -> Iterator[Remark]:
    where = f"gauge-{place}-residual"
    if static is None:
        yield Remark(
            "static", "A residual says something only beside the static: type the static pressure too."
        )
        return
    share = gauge.residual.value_si / static.value_si
    if share >= 1:
        left = in_both(gauge.residual.value_si, "pressure", gauge.residual.unit)
        rest = in_both(static.value_si, "pressure", static.unit)
        yield Remark(
            where, f"The residual {left} is not below the static {rest}. Read both again at the same tap."
        )
    elif not RESIDUAL_SHARES[0] <= share <= RESIDUAL_SHARES[1]:
        side = "little" if share < RESIDUAL_SHARES[0] else "much"
        text = f"{share:.0%} of the static is left while it flows, which is {side}. Was the tap fully open?"
        yield Remark(where, text, token(where, gauge.residual, f"share-{side}"))


def _service(data: VisitData) -> Iterator[Remark]:
    """The flow that was tested must fit through the service pipe."""
    flows = [bucket_lpm(bucket) for bucket in data.buckets] + [g.flow.value_si for g in data.gauges]
    if data.service_bore is None or not flows or data.service_bore.value_si < BORE.least:
        return
    speed = velocity_mps(max(flows), data.service_bore.value_si)
    if speed <= SERVICE_ASKS_MPS:
        return
    flow = written(max(flows), "flow", "L/min")
    text = f"{flow} through this bore would run at {speed:.1f} m/s ({speed / 0.3048:.0f} ft/s)"
    if speed > SERVICE_WRONG_MPS:
        yield Remark("service_bore", f"{text}: impossible, or the wrong bore. Measure the pipe again.")
    else:
        mark = token("service_bore", data.service_bore, "speed")
        yield Remark("service_bore", f"{text}, which is fast. Is the bore right?", mark)


def _meter(data: VisitData, parts: Catalogue | None) -> Iterator[Remark]:
    if not data.meter or parts is None:
        return
    part = parts.get(data.meter)
    if not isinstance(part, MeterPart):
        yield Remark("meter", f"There is no meter “{data.meter}” in the parts book; choose one from it.")
        return
    flows = [bucket_lpm(bucket) for bucket in data.buckets] + [g.flow.value_si for g in data.gauges]
    if flows and max(flows) > part.safe_max_lpm:
        text = (
            f"{written(max(flows), 'flow', 'L/min')} is more than this meter's safe "
            f"{written(part.safe_max_lpm, 'flow', 'L/min')}. Is it the right meter?"
        )
        yield Remark("meter", text, f"meter.{data.meter}.over={max(flows):.6g}")


def _contradictions(data: VisitData) -> Iterator[Remark]:
    """Readings that cannot all be true, as the supply curve finds them."""
    if data.static is None:
        return
    try:
        fit_supply(data.static.value_si, supply_readings(data))
    except SupplyContradiction as error:
        where = "gauge-0-residual" if data.gauges else "static"
        yield Remark(where, sentence(str(error)))
