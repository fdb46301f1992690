"""What a visit measured, as the forms, the API and the demo hand it to the services."""

from dataclasses import dataclass, field
from datetime import date, time

from hydraulics.units import Quantity


@dataclass(frozen=True)
class Bucket:
    volume: Quantity
    fill: Quantity  # the time that it took
    tap: str = ""


@dataclass(frozen=True)
class Gauge:
    flow: Quantity
    residual: Quantity
    tap: str = ""


@dataclass(frozen=True)
class Height:
    place: str
    height: Quantity  # above the tap where pressure was read


@dataclass(frozen=True)
class VisitData:
    visited_on: date
    measured_by: str
    visited_at: time | None = None
    weather: str = ""
    static: Quantity | None = None
    static_tap: str = ""
    buckets: tuple[Bucket, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    heights: tuple[Height, ...] = ()
    meter: str = ""
    meter_read: str = ""
    service_material: str = "unknown"
    service_bore: Quantity | None = None
    service_length: Quantity | None = None
    connection_z: Quantity | None = None
    remarks: str = ""


@dataclass(frozen=True)
class Remark:
    """A sentence about one figure. ``where`` is a field such as ``static`` or ``bucket-0-fill``.

    A question carries a token that names the doubt and the figure: handed back, it says that
    the figure is right. A refusal has none.
    """

    where: str
    sentence: str
    token: str = ""


@dataclass(frozen=True)
class Remarks:
    refusals: tuple[Remark, ...] = field(default=())
    questions: tuple[Remark, ...] = field(default=())

    def open_questions(self, confirmed: set[str]) -> tuple[Remark, ...]:
        return tuple(question for question in self.questions if question.token not in confirmed)
