"""From a visit's readings to its columns and rows, and back."""

from typing import Any

from hydraulics.units import Kind, Quantity
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
        name: _quantity(getattr(visit, si_column), getattr(visit, text_column))
        for name, (si_column, text_column, _) in PAIRS.items()
    }
    return VisitData(
        buckets=tuple(_bucket(test) for test in tests if test.kind == FlowTest.BUCKET),
        gauges=tuple(_gauge(test) for test in tests if test.kind == FlowTest.GAUGE),
        heights=tuple(Height(h.place, Quantity(h.height_m, "m", h.height_text)) for h in visit.heights.all()),
        **values,
    )


def _bucket(test: FlowTest) -> Bucket:
    volume = Quantity(test.volume_l or 0.0, _unit(test.volume_text, "L"), test.volume_text)
    return Bucket(volume, Quantity(test.fill_s or 0.0, "s", test.fill_text), test.tap)


def _gauge(test: FlowTest) -> Gauge:
    flow = Quantity(test.flow_lpm or 0.0, _unit(test.flow_text, "L/min"), test.flow_text)
    residual = Quantity(test.residual_kpa or 0.0, _unit(test.residual_text, "kPa"), test.residual_text)
    return Gauge(flow, residual, test.tap)


def _quantity(value_si: float | None, text: str) -> Quantity | None:
    return None if value_si is None else Quantity(value_si, "", text)


def _unit(text: str, fallback: str) -> str:
    """A US unit if the figure was typed in one, so that sentences answer in the same."""
    return {"gal": "gal", "gpm": "gpm", "psi": "psi"}.get(text.split()[-1] if text.split() else "", fallback)
