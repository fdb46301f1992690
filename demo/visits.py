"""A visit of the demo's data, its figures read as if somebody had typed them."""

from datetime import date, timedelta
from typing import Any

from hydraulics.units import Kind, Quantity, parse_quantity
from sites.figures import DEFAULT_UNITS, System
from sites.readings import Bucket, Gauge, Height, VisitData


def visit_data(row: dict[str, Any], system: System, measured_by: str, today: date) -> VisitData:
    """``row`` is the ``visit`` of a site in customers.json."""
    units = DEFAULT_UNITS[system]

    def read(text: str, kind: Kind) -> Quantity:
        return parse_quantity(text, kind, units[kind])

    tests, pipe = row["tests"], row["service_pipe"]
    return VisitData(
        visited_on=today - timedelta(days=row["days_ago"]),
        measured_by=measured_by,
        static=read(row["static_pressure"]["typed"], "pressure"),
        static_tap=row["static_pressure"]["tap"],
        buckets=tuple(
            Bucket(read(test["volume"], "volume"), read(test["seconds"], "time"), test["tap"])
            for test in tests
            if test["kind"] == "bucket"
        ),
        gauges=tuple(
            Gauge(read(test["flow"], "flow"), read(test["residual"], "pressure"), test["tap"])
            for test in tests
            if test["kind"] == "gauge"
        ),
        heights=tuple(Height(h["place"], read(h["height"], "length")) for h in row["heights"]),
        meter=row["meter"],
        service_material=pipe["material"],
        service_bore=read(pipe["bore"], "bore"),
        service_length=read(pipe["length"], "length"),
        remarks=row["notes"],
    )
