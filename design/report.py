"""The check report: what ``design.check.check`` returns and every surface shows.

Plain frozen dataclasses, so that ``report_to_dict`` is the one JSON form of it.
"""

from dataclasses import asdict, dataclass
from typing import Any, Literal

from hydraulics.findings import Finding, Severity
from hydraulics.limits import MovedLimit

XY = tuple[float, float]
Method = Literal["machine", "hand", "bore"]
TrenchRole = Literal["main", "lateral", "cable"]


@dataclass(frozen=True)
class SupplyLimit:
    """One thing that caps the design flow; the smallest binds."""

    name: str  # curve, bucket_share, meter_share, service_velocity
    flow_lpm: float
    sentence: str
    source: str


@dataclass(frozen=True)
class SupplyReading:
    """One reading at the level of the connection. No miss: a lower bound, which fixed nothing."""

    kind: Literal["static", "gauge", "bucket"]
    tap: str
    flow_lpm: float
    kpa: float
    miss_kpa: float | None


@dataclass(frozen=True)
class SupplyBand:
    """The curve at that flow lies between these two at about 95 %."""

    flow_lpm: float
    low_kpa: float
    high_kpa: float


@dataclass(frozen=True)
class SupplyResult:
    """Supply curve p(q) = static_kpa - loss_coefficient * q_lpm**1.852 at the connection.

    ``reserve_kpa`` is taken off for the worst season, and not off ``readings``. ``needed_kpa``
    is what the neediest case needs at the connection. ``band`` is empty where nothing was
    measured that it could rest on.
    """

    static_kpa: float
    loss_coefficient: float
    residuals_kpa: tuple[float, ...]
    confidence: Literal["measured", "cautious", "provisional"]
    design_flow_lpm: float
    binding: str
    limits: tuple[SupplyLimit, ...]
    confidence_sentence: str = ""
    reserve_kpa: float = 0.0
    needed_kpa: float = 0.0
    readings: tuple[SupplyReading, ...] = ()
    band: tuple[SupplyBand, ...] = ()


@dataclass(frozen=True)
class HeadResult:
    id: str
    label: str
    part: str
    zone: str
    case: str
    pressure_kpa: float
    flow_lpm: float
    throw_m: float
    reach_m: float  # what it is set to, or all its throw
    needed_m: float  # to the farthest point that it must wet
    needed_at: XY | None
    needed_bearing_deg: float | None


@dataclass(frozen=True)
class PipeResult:
    id: str
    part: str
    case: str
    flow_lpm: float  # signed, along from -> to
    velocity_mps: float
    loss_kpa: float


@dataclass(frozen=True)
class CaseResult:
    label: str
    zones: tuple[str, ...]
    flow_lpm: float
    connection_kpa: float  # at the connection, before the backflow device
    worst_head: str
    worst_head_kpa: float
    node_kpa: dict[str, float]
    heads: tuple[HeadResult, ...]
    pipes: tuple[PipeResult, ...]
    worst_path: tuple[str, ...]  # node ids from the supply to the worst head
    spare_kpa: float = 0.0  # pressure at the worst head above the least that it needs


@dataclass(frozen=True)
class ZoneResult:
    """What one valve opens, or one head that carries its own."""

    id: str
    label: str
    heads: tuple[str, ...]
    pipes: tuple[str, ...]
    areas: tuple[str, ...]
    flow_lpm: float
    mm_per_hour: float | None


@dataclass(frozen=True)
class OutsideWater:
    """What the heads of an area throw elsewhere while they run; ``pct`` of all that they give.

    ``surface`` is the id of a surface and ``kind`` its kind; empty and ``ground`` where nothing
    is drawn. What meets a building's wall is counted to the building.
    """

    surface: str
    kind: str
    litres_per_hour: float
    pct: float


@dataclass(frozen=True)
class DrySpotResult:
    """A patch that no head reaches; ``at`` lies in it."""

    area_m2: float
    at: XY


@dataclass(frozen=True)
class AreaResult:
    id: str
    label: str
    area_m2: float
    watered_m2: float  # reached by at least one head
    twice_m2: float  # reached by two or more
    mean_mm_per_hour: float
    cu_pct: float | None
    dulq_pct: float | None
    scheduling_coefficient: float | None
    driest_mm_per_hour: float | None = None  # mean of the driest 5 %
    outside: tuple[OutsideWater, ...] = ()
    dry_spots: tuple[DrySpotResult, ...] = ()  # the largest first


@dataclass(frozen=True)
class TrenchStretch:
    id: str
    path: tuple[XY, ...]
    length_m: float
    method: Method
    depth_m: float
    role: TrenchRole
    pipes: tuple[str, ...]
    cables: tuple[str, ...]
    soil: str
    surface: str  # id of the hard surface passed under, else ""
    why: str  # sentence, where the method is not the open machine trench


@dataclass(frozen=True)
class CableResult:
    id: str
    from_id: str
    to_id: str
    part: str
    path: tuple[XY, ...]
    trench_m: float
    rise_m: float
    slack_m: float
    length_m: float  # trench + rise + slack
    limit_m: float | None


@dataclass(frozen=True)
class PipeMeasure:
    id: str
    part: str
    role: Literal["main", "lateral"]
    path: tuple[XY, ...]
    length_m: float


@dataclass(frozen=True)
class SleeveMeasure:
    """A crossing under a hard surface: bored length, and the duct with its ends."""

    id: str
    surface: str
    path: tuple[XY, ...]
    bored_m: float
    sleeve_m: float
    existing: bool
    pipes: tuple[str, ...]
    cables: tuple[str, ...]


@dataclass(frozen=True)
class CheckReport:
    supply: SupplyResult
    cases: tuple[CaseResult, ...]
    zones: tuple[ZoneResult, ...]
    areas: tuple[AreaResult, ...]
    pipes: tuple[PipeMeasure, ...]
    trench: tuple[TrenchStretch, ...]
    cables: tuple[CableResult, ...]
    sleeves: tuple[SleeveMeasure, ...]
    findings: tuple[Finding, ...]
    moved_limits: tuple[MovedLimit, ...] = ()  # those that the company has moved from their usual value

    @property
    def stops(self) -> tuple[Finding, ...]:
        return tuple(f for f in self.findings if f.severity == Severity.STOP)


def report_to_dict(report: CheckReport) -> dict[str, Any]:
    return asdict(report)
