"""The plan document, format ``plan/1``: one JSON document per plan revision.

Site metres, x east and y north from a local origin, angles in degrees clockwise from
north, SI units in every name. The browser, the API, the command line and the tests all
speak this model; ``docs/plan.schema.json`` is generated from it.
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Metre = Annotated[float, Field(ge=-5000, le=5000)]
Point = tuple[Metre, Metre]
Id = Annotated[str, Field(min_length=1, max_length=40, pattern=r"^[A-Za-z0-9][A-Za-z0-9_.\-]*$")]
Label = Annotated[str, Field(max_length=120)]
Code = Annotated[str, Field(max_length=40)]
Ring = Annotated[list[Point], Field(min_length=3, max_length=2000)]
Path = Annotated[list[Point], Field(min_length=2, max_length=2000)]
Via = Annotated[list[Point], Field(max_length=500)]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False, populate_by_name=True)


class Mark(_Model):
    """A fixed point on the ground that tapes are pulled from."""

    id: Id
    label: Label = ""
    at: Point


class Area(_Model):
    id: Id
    label: Label = ""
    cover: Literal["turf", "bed", "hedge", "vegetables", "pots"] = "turf"
    outline: Ring
    holes: list[Ring] = []
    soil: Literal["sand", "sandy_loam", "loam", "clay_loam", "clay"] = "loam"
    slope_pct: Annotated[float, Field(ge=0, le=100)] = 0


class Surface(_Model):
    id: Id
    label: Label = ""
    kind: Literal["building", "paving", "water", "tree", "future_work", "keep_out", "neighbour", "fence"]
    outline: Ring


class Service(_Model):
    """Something buried, or to be buried, along a path."""

    id: Id
    label: Label = ""
    kind: Literal["gas", "electric", "water", "telecom", "sewer", "drain", "future_drain"]
    path: Path
    depth_m: Annotated[float, Field(ge=0, le=10)] | None = None  # none: nobody knows
    located: bool = False


class Level(_Model):
    id: Id | None = None
    at: Point
    z_m: Annotated[float, Field(ge=-500, le=500)]


class Ground(_Model):
    marks: list[Mark] = []
    areas: list[Area] = []
    surfaces: list[Surface] = []
    services: list[Service] = []
    levels: list[Level] = []


class _Test(_Model):
    tap: Label = ""
    z_m: Annotated[float, Field(ge=-500, le=500)] | None = None  # of its tap; none: the supply's


class BucketTest(_Test):
    kind: Literal["bucket"]
    litres: Annotated[float, Field(gt=0, le=2000)]
    seconds: Annotated[float, Field(gt=0, le=36000)]


class GaugeTest(_Test):
    kind: Literal["gauge"]
    flow_lpm: Annotated[float, Field(gt=0, le=5000)]
    residual_kpa: Annotated[float, Field(ge=0, le=2500)]


class StaticTest(_Test):
    """Another static reading, beside the supply's own."""

    kind: Literal["static"]
    pressure_kpa: Annotated[float, Field(gt=0, le=2500)]


FlowTest = Annotated[BucketTest | GaugeTest | StaticTest, Field(discriminator="kind")]


class ServicePipe(_Model):
    material: Literal["copper", "pe", "pvc", "steel", "unknown"] = "unknown"
    bore_mm: Annotated[float, Field(gt=5, lt=200)]
    length_m: Annotated[float, Field(ge=0, le=1000)] = 0


class Supply(_Model):
    at: Point
    z_m: Annotated[float, Field(ge=-500, le=500)] = 0  # of the tap where readings were taken
    static_kpa: Annotated[float, Field(gt=0, le=2500)]
    tests: list[FlowTest] = []
    service_pipe: ServicePipe | None = None
    meter: Code | None = None
    backflow: Code | None = None
    backflow_height_m: Annotated[float, Field(ge=-10, le=20)] | None = None  # above the ground there


class _Node(_Model):
    id: Id
    at: Point
    z_m: Annotated[float, Field(ge=-500, le=500)] | None = None  # none: from the levels
    label: Label = ""


class SupplyNode(_Node):
    kind: Literal["supply"]


class ValveNode(_Node):
    kind: Literal["valve"]
    part: Code


class HeadNode(_Node):
    """A head, or the inlet of a drip area. ``from_deg`` to ``from_deg + sweep_deg`` is its arc."""

    kind: Literal["head"]
    part: Code
    from_deg: Annotated[float, Field(ge=0, lt=360)] = 0
    sweep_deg: Annotated[float, Field(gt=0, le=360)] = 360
    reach_m: Annotated[float, Field(gt=0, le=60)] | None = None  # what the throw is set to
    area: Id | None = None  # the area that it waters; needed for drip


class JunctionNode(_Node):
    kind: Literal["junction"]


class ControllerNode(_Node):
    kind: Literal["controller"]
    part: Code


Node = Annotated[
    SupplyNode | ValveNode | HeadNode | JunctionNode | ControllerNode,
    Field(discriminator="kind"),
]


class Pipe(_Model):
    id: Id
    from_: Annotated[Id, Field(alias="from")]
    to: Id
    via: Via = []
    part: Code


class Cable(_Model):
    """A control cable between two devices. Without ``via`` it follows the trench."""

    id: Id
    from_: Annotated[Id, Field(alias="from")]
    to: Id
    via: Via = []
    part: Code


class Case(_Model):
    """Zones that run together, named by their valve, or by the head that has its own."""

    label: Annotated[str, Field(min_length=1, max_length=60)]
    open: Annotated[list[Id], Field(min_length=1)]


class Sleeve(_Model):
    """A duct under a hard surface, across which pipes and cables pass."""

    id: Id
    path: Path
    part: Code | None = None
    existing: bool = False


class Note(_Model):
    id: Id | None = None
    at: Point | None = None
    text: Annotated[str, Field(max_length=1000)]


class Layout(_Model):
    nodes: list[Node] = []
    pipes: list[Pipe] = []
    cables: list[Cable] = []
    cases: list[Case] = []
    sleeves: list[Sleeve] = []
    notes: list[Note] = []


class Plan(_Model):
    format: Literal["plan/1"]
    ground: Ground = Ground()
    supply: Supply
    layout: Layout = Layout()
