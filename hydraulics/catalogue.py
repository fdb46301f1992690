"""Technical data of the parts that a layout is built from.

One frozen model per kind of part, in SI units with the unit in the name. Prices
are no business of this module: the parts app stores them beside these data.
"""

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from typing import Annotated, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, model_validator


class UnknownPart(LookupError):
    """The catalogue holds no part of that code, or holds one of another kind."""


class _Model(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class _Part(_Model):
    code: str = Field(min_length=1, max_length=40, pattern=r"^[a-z0-9][a-z0-9.\-]*$")
    label: str = Field(min_length=1, max_length=120)


class LossRow(_Model):
    """One point of a pressure-loss curve."""

    flow_lpm: float = Field(gt=0)
    loss_kpa: float = Field(ge=0)


class _WithLoss(_Part):
    """Loss is piecewise linear through (0, 0) and the rows, straight on beyond the last.

    With ``loss_exponent`` it goes with that power of the flow through the one row given.
    """

    loss: tuple[LossRow, ...] = ()
    loss_exponent: float | None = Field(default=None, ge=1, le=3)

    @model_validator(mode="after")
    def _rows_rise(self) -> "_WithLoss":
        flows = [row.flow_lpm for row in self.loss]
        losses = [row.loss_kpa for row in self.loss]
        if flows != sorted(set(flows)) or losses != sorted(losses):
            raise ValueError("loss rows must rise in flow, and never fall in loss")
        if self.loss_exponent is not None and len(self.loss) != 1:
            raise ValueError("a loss by exponent needs one row, through which it passes")
        return self


class PipePart(_Part):
    kind: Literal["pipe"] = "pipe"
    material: Literal["pvc", "pe", "copper"]
    size: str  # nominal size as the fittings name it, such as "32" or "1"
    outside_mm: float = Field(gt=0)
    bore_mm: float = Field(gt=0)
    rating_kpa: float = Field(gt=0)
    joint: Literal["solvent", "insert", "compression"]
    supplied: Literal["stick", "coil"]
    stock_m: tuple[float, ...]  # lengths that the supplier sells
    hazen_williams_c: float = Field(default=150, gt=0)
    modulus_gpa: float = Field(default=2.76, gt=0)


class PerformanceRow(_Model):
    """Flow and throw of a head at one inlet pressure; throw is a radius."""

    pressure_kpa: float = Field(gt=0)
    flow_lpm: float = Field(gt=0)
    throw_m: float = Field(gt=0)


class ProfileRow(_Model):
    """How much falls at one distance: as a share of the throw, and in relation to the other rows."""

    distance_share: float = Field(ge=0, le=1)
    depth: float = Field(ge=0)


class HeadPart(_Part):
    """A sprinkler.

    ``pattern`` is how it wets: a fixed arc, a full circle, or a throw that varies with
    bearing. Rows hold the flow of a full circle where ``flow_scales_with_arc`` is true
    (matched precipitation), else the flow whatever the arc. ``regulated_kpa`` is the
    pressure that a regulator in the stem holds; above it flow and throw stay.
    """

    kind: Literal["head"] = "head"
    family: Literal["rotor", "spray", "rotary", "bearing"]
    pattern: Literal["fixed_arc", "full_circle", "by_bearing"]
    rows: tuple[PerformanceRow, ...] = Field(min_length=1)
    min_kpa: float = Field(gt=0)
    max_kpa: float = Field(gt=0)
    flow_scales_with_arc: bool = False
    regulated_kpa: float | None = Field(default=None, gt=0)
    min_throw_m: float = Field(default=0, ge=0)
    profile: Literal["uniform", "triangular"] = "triangular"
    profile_rows: tuple[ProfileRow, ...] = ()  # measured; where there are any, they count
    own_valve: bool = False
    valve_loss: tuple[LossRow, ...] = ()  # of the valve that it carries, if it does
    inlet: str = "15"
    popup_m: float = Field(default=0.1, ge=0)
    check_height_m: float = Field(default=0, ge=0)
    mm_per_hour: float | None = Field(default=None, gt=0)

    @cached_property
    def rising_rows(self) -> tuple[PerformanceRow, ...]:
        """The rows by rising pressure, however they were typed."""
        return tuple(sorted(self.rows, key=lambda row: row.pressure_kpa))

    @model_validator(mode="after")
    def _profile_runs_outwards(self) -> "HeadPart":
        shares = [row.distance_share for row in self.profile_rows]
        if shares and (shares != sorted(set(shares)) or len(shares) < 2 or (shares[0], shares[-1]) != (0, 1)):
            raise ValueError("profile rows must rise in distance, from 0 at the head to 1 at its throw")
        if shares and not any(row.depth > 0 for row in self.profile_rows):
            raise ValueError("at least one profile row must have a depth above 0")
        return self


class DripPart(_Part):
    """Drip line laid in rows over an area.

    Its emitters hold their flow from ``min_kpa`` up where ``emitter_exponent`` is 0, which is
    what pressure-compensated ones do; else they give ``emitter_lph`` at ``nominal_kpa`` and
    follow the pressure with that exponent.
    """

    kind: Literal["drip"] = "drip"
    emitter_lph: float = Field(gt=0)
    emitter_spacing_m: float = Field(gt=0)
    row_spacing_m: float = Field(gt=0)
    edge_margin_m: float = Field(default=0.1, ge=0)
    min_kpa: float = Field(gt=0)
    max_kpa: float = Field(gt=0)
    stock_m: tuple[float, ...] = (100.0,)
    inlet: str = "15"
    check_height_m: float = Field(default=0, ge=0)
    bore_mm: float = Field(default=13.6, gt=0)  # from memory: usual 16 mm drip line
    hazen_williams_c: float = Field(default=140, gt=0)
    emitter_exponent: float = Field(default=0, ge=0, le=1)
    nominal_kpa: float = Field(default=100, gt=0)


class ValvePart(_WithLoss):
    """A zone's valve; ``regulates_kpa`` is the pressure that it holds behind it, none for no regulator.

    A filter that belongs to it is in its loss.
    """

    kind: Literal["valve"] = "valve"
    size: str
    regulates_kpa: float | None = Field(default=None, gt=0)
    rating_kpa: float = Field(default=1000, gt=0)
    coil_amp: float = Field(default=0.25, gt=0)
    coil_inrush_amp: float = Field(default=0.45, gt=0)
    min_coil_volt: float = Field(default=20, gt=0)


class BackflowPart(_WithLoss):
    kind: Literal["backflow"] = "backflow"
    size: str
    device: Literal[
        "pressure_vacuum_breaker", "atmospheric_vacuum_breaker", "reduced_pressure", "double_check"
    ]
    min_height_m: float = Field(default=0.3, ge=0)  # above the highest outlet, or above ground


class MeterPart(_WithLoss):
    kind: Literal["meter"] = "meter"
    size: str
    safe_max_lpm: float = Field(gt=0)


class CablePart(_Part):
    kind: Literal["cable"] = "cable"
    cores: int = Field(ge=1)
    conductor_mm2: float = Field(gt=0)
    ohm_per_km: float = Field(gt=0)  # one conductor at 20 °C
    limit_m: float | None = Field(default=None, gt=0)  # longest run from device to device
    fixed_length_m: float | None = Field(default=None, gt=0)  # sold made up to one length
    stock_m: tuple[float, ...] = (50.0,)


class ControllerPart(_Part):
    kind: Literal["controller"] = "controller"
    stations: int = Field(ge=1)
    volt: float = Field(default=24, gt=0)
    transformer_va: float = Field(default=20, gt=0)


class Socket(_Model):
    """One opening of a fitting: how a pipe joins it and of what size."""

    joint: Literal["solvent", "insert", "compression", "thread", "spigot"]
    size: str


class FittingPart(_Part):
    kind: Literal["fitting"] = "fitting"
    role: Literal[
        "tee", "elbow_90", "elbow_45", "elbow_22", "threaded_tee", "threaded_elbow", "reducer",
        "coupling", "adapter", "cap", "manifold_tee", "manifold_elbow", "saddle",
        "swing_joint", "drip_connector", "flush_point",
    ]  # fmt: skip
    sockets: tuple[Socket, ...]


class SundryPart(_Part):
    """What is bought by the piece or by measure and has no hydraulics of its own."""

    kind: Literal["sundry"] = "sundry"
    role: Literal[
        "valve_box", "connector", "cement", "primer", "thread_tape", "warning_tape",
        "sleeve", "clamp", "sand", "gravel", "isolation_valve", "filter_regulator", "pin",
        "rain_sensor", "other",
    ]  # fmt: skip
    size: str = ""
    unit: str = "each"
    yield_per_unit: float = Field(default=1, gt=0)  # joints per tin, valves per box, metres per roll


Part = Annotated[
    PipePart | HeadPart | DripPart | ValvePart | BackflowPart | MeterPart
    | CablePart | ControllerPart | FittingPart | SundryPart,
    Field(discriminator="kind"),
]  # fmt: skip
P = TypeVar("P", bound=_Part)
PART_ADAPTER: TypeAdapter[Part] = TypeAdapter(Part)


class Catalogue(Mapping[str, Part]):
    """Parts by code."""

    def __init__(self, parts: Iterable[Part]) -> None:
        self._parts = {part.code: part for part in parts}

    @classmethod
    def from_dicts(cls, rows: Iterable[Mapping[str, object]]) -> "Catalogue":
        return cls(PART_ADAPTER.validate_python(row) for row in rows)

    def __getitem__(self, code: str) -> Part:
        return self._parts[code]

    def __iter__(self) -> Iterator[str]:
        return iter(self._parts)

    def __len__(self) -> int:
        return len(self._parts)

    def need(self, code: str, kind: type[P]) -> P:
        """The part of that code and kind, or UnknownPart with a sentence."""
        part = self._parts.get(code)
        if part is None:
            raise UnknownPart(f"there is no part “{code}” in the parts book")
        if not isinstance(part, kind):
            raise UnknownPart(f"part “{code}” is a {part.kind}, not what this place needs")
        return part
