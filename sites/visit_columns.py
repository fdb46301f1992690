"""From a visit's readings to its columns and rows, and back."""

from typing import Any

from hydraulics.errors import BadQuantity
from hydraulics.units import Kind, Quantity, parse_quantity
from sites.figures import typed_text
from sites.models import FlowTest, HeightReading, Visit
from sites.readings import Bucket, Gauge, Height, VisitData

# reading -> column in SI, column of the typed text, kind
PAIRS: dict[str, tuple[str, str, Kind]] = {
    "static": ("static_kpa", "static_text", "pressure"),
    "service_bore": ("service_bore_mm", "service_bore_text", "bore"),
    "service_length": ("service_length_m", "service_length_text", "length"),
    "connection_z": ("connection_z_m", "connection_z_text", "length"),
}
WORKING_UNITS: dict[Kind, str] = {
    "pressure": "kPa", "flow": "L/min", "length": "m", "volume": "L", "bore": "mm", "time": "s",
}  # fmt: skip
PLAIN = (
    "visited_on", "visited_at", "measured_by", "weather", "static_tap", "meter", "meter_read",
    "service_material", "remarks",
)  # fmt: skip


def columns_of(data: VisitData) -> dict[str, Any]:
    """The values of the visit's own columns."""
    columns: dict[str, Any] = {name: getattr(data, name) for name in PLAIN}
    for name, (si_column, text_column, _) in PAIRS.items():
        quantity: Quantity | None = getattr(data, name)
        columns[si_column] = quantity.value_si if quantity else None
        columns[text_column] = typed_text(quantity) if quantity else ""
    return columns


def tests_of(visit: Visit, data: VisitData) -> list[FlowTest]:
    """Unsaved rows for the flow tests: buckets first, in the order typed."""
    buckets = [
        FlowTest(
            visit=visit, kind=FlowTest.BUCKET, tap=b.tap, volume_l=b.volume.value_si,
            volume_text=typed_text(b.volume), fill_s=b.fill.value_si, fill_text=typed_text(b.fill),
        )
        for b in data.buckets
    ]  # fmt: skip
    gauges = [
        FlowTest(
            visit=visit, kind=FlowTest.GAUGE, tap=g.tap,
            flow_lpm=g.flow.value_si, flow_text=typed_text(g.flow),
            residual_kpa=g.residual.value_si, residual_text=typed_text(g.residual),
        )
        for g in data.gauges
    ]  # fmt: skip
    rows = [*buckets, *gauges]
    for position, row in enumerate(rows):
        row.position = position
    return rows


def heights_of(visit: Visit, data: VisitData) -> list[HeightReading]:
    return [
        HeightReading(
            visit=visit,
            position=position,
            place=h.place,
            height_m=h.height.value_si,
            height_text=typed_text(h.height),
        )
        for position, h in enumerate(data.heights)
    ]


def data_of(visit: Visit) -> VisitData:
    """The readings of a stored visit."""
    tests = list(visit.tests.all())
    values: dict[str, Any] = {name: getattr(visit, name) for name in PLAIN}
    values |= {
        name: None
        if (value := getattr(visit, si_column)) is None
        else _stored(value, getattr(visit, text_column), kind)
        for name, (si_column, text_column, kind) in PAIRS.items()
    }
    return VisitData(
        buckets=tuple(_bucket(test) for test in tests if test.kind == FlowTest.BUCKET),
        gauges=tuple(_gauge(test) for test in tests if test.kind == FlowTest.GAUGE),
        heights=tuple(
            Height(h.place, _stored(h.height_m, h.height_text, "length")) for h in visit.heights.all()
        ),
        **values,
    )


def _bucket(test: FlowTest) -> Bucket:
    volume = _stored(test.volume_l or 0.0, test.volume_text, "volume")
    return Bucket(volume, _stored(test.fill_s or 0.0, test.fill_text, "time"), test.tap)


def _gauge(test: FlowTest) -> Gauge:
    flow = _stored(test.flow_lpm or 0.0, test.flow_text, "flow")
    return Gauge(flow, _stored(test.residual_kpa or 0.0, test.residual_text, "pressure"), test.tap)


def _stored(value_si: float, text: str, kind: Kind) -> Quantity:
    """The kept figure; its text tells the unit that sentences about it answer in."""
    try:
        unit = parse_quantity(text, kind, WORKING_UNITS[kind]).unit
    except BadQuantity:
        unit = WORKING_UNITS[kind]
    return Quantity(value_si, unit, text)
