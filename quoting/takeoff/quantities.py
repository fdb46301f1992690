"""What a take-off consists of: quantities with where they come from, and how they were counted."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import ROUND_CEILING, Decimal
from typing import Literal

Kind = Literal["part", "ground", "driver"]  # bought; dug or carried; only moves labour


def decimal_of(value: float, places: int = 3) -> Decimal:
    """A measure as a decimal, rounded first so that no binary tail shows."""
    return Decimal(str(round(float(value), places))) + 0


def plain(value: Decimal) -> str:
    """A decimal as a person writes it: no exponent, no idle zeros."""
    return f"{value.normalize():f}"


def whole(value: Decimal) -> Decimal:
    """Up to a whole number, forgiving a millionth."""
    return (value - Decimal("0.000001")).to_integral_value(ROUND_CEILING) + 0


@dataclass(frozen=True)
class Quantity:
    """One line of the take-off.

    ``quantity`` in ``unit`` is what is bought or done; ``net`` in ``net_unit`` is what the plan
    asks for before waste, spares and packs. One ``unit`` holds ``pack`` of ``net_unit``.
    ``where`` holds ids of plan entities. A ``part`` line whose ``part`` is None is something
    that the parts book lacks: it is listed all the same, and ``missing`` is true.
    """

    kind: Kind
    role: str
    key: str
    description: str
    quantity: Decimal
    unit: str
    net: Decimal
    net_unit: str
    where: tuple[str, ...]
    how: str
    part: str | None = None
    pack: Decimal = Decimal(1)

    @property
    def missing(self) -> bool:
        return self.kind == "part" and self.part is None

    @property
    def measure(self) -> Decimal:
        """What is bought, in ``net_unit``: 16 sticks of 6 m are 96 m."""
        return self.quantity * self.pack


@dataclass(frozen=True)
class TakeoffNote:
    """Something about the take-off that a person should read."""

    code: str
    where: tuple[str, ...]
    sentence: str


@dataclass(frozen=True)
class TakeOff:
    quantities: tuple[Quantity, ...]
    notes: tuple[TakeoffNote, ...] = ()

    @property
    def missing(self) -> tuple[Quantity, ...]:
        return tuple(q for q in self.quantities if q.missing)

    def of(self, *roles: str) -> tuple[Quantity, ...]:
        return tuple(q for q in self.quantities if q.role in roles)

    def net(self, *roles: str) -> Decimal:
        """Sum of what the plan asks for under these roles; the caller minds the units."""
        return sum((q.net for q in self.of(*roles)), Decimal(0))

    def where(self, *roles: str) -> tuple[str, ...]:
        return distinct(place for q in self.of(*roles) for place in q.where)


def distinct(items: Iterable[str]) -> tuple[str, ...]:
    """Without repeats, in order of first appearance."""
    return tuple(dict.fromkeys(item for item in items if item))


def _bulking() -> dict[str, Decimal]:
    # common practice, no source
    return {"sand": Decimal("1.10"), "clay": Decimal("1.35")}


@dataclass(frozen=True)
class TakeoffSettings:
    """Every default is common practice, no source; a company moves each."""

    stick_waste: Decimal = Decimal("0.05")
    coil_waste: Decimal = Decimal("0.05")
    drip_waste: Decimal = Decimal("0.05")
    cable_allowance: Decimal = Decimal("0.10")
    coil_spare_coupling_m: Decimal = Decimal(50)  # one spare coupling for each of these
    spare_fittings_to_ten: int = 1
    spare_fittings_share: Decimal = Decimal("0.05")  # beyond ten of a kind
    nipple_m: float = 0.2
    straight_deg: float = 10  # no fitting up to here
    coil_bend_deg: float = 30  # a coil bends without a fitting up to here
    coil_bend_radius_od: float = 25  # least bend radius, in outside diameters
    tee_straight_deg: float = 15  # two arms of a tee may be this far from straight
    manifold_reach_m: float = 1.5  # valves nearer than this share a box
    isolate_from_valves: int = 2  # a manifold of so many has its own isolation valve
    clamp_double_above_mm: float = 32
    threads_per_roll: int = 25
    cement_tin_ml: Decimal = Decimal(250)
    gravel_per_box_m3: Decimal = Decimal("0.03")
    connector_spare: Decimal = Decimal("0.10")
    spare_cores: int = 2
    cable_outside_mm: float = 10
    sleeve_bore_ratio: float = 2  # of the sum of what lies in it
    machine_width_m: float = 0.12
    hand_width_m: float = 0.22
    bulking: Mapping[str, Decimal] = field(default_factory=_bulking)
    bulking_else: Decimal = Decimal("1.25")
    uncompacted: Decimal = Decimal("0.075")
    turf_extra_m: float = 0.20  # lifted beside the trench
    short_bore_m: float = 2.0
    drip_pins_per_m: Decimal = Decimal(1)
    rain_sensor: str = ""  # code of the sensor to add, if any
    air_vent: str = "air-vent"  # code of the vent at the high point of a drip bed, if the book has it

    def width_m(self, method: str) -> float:
        return self.machine_width_m if method == "machine" else self.hand_width_m
