"""How fast each kind of work goes, as a crew would say it before it has figures of its own."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, Protocol

from quoting.money import exact

Measure = Literal["m/h", "m2/h", "min each", "h each"]


class Rate(Protocol):
    """Anything with a work code, a measure and three rates; ``value`` is the one that counts."""

    @property
    def label(self) -> str: ...
    @property
    def measure(self) -> str: ...
    @property
    def good(self) -> Decimal: ...
    @property
    def typical(self) -> Decimal: ...
    @property
    def bad(self) -> Decimal: ...
    @property
    def value(self) -> Decimal: ...


@dataclass(frozen=True)
class ProductionRate:
    """One person's rate at the face, before carrying, weather and breaks."""

    work: str
    label: str
    measure: Measure
    good: Decimal
    typical: Decimal
    bad: Decimal
    value: Decimal  # the typical one until the company knows better

    def __post_init__(self) -> None:
        for name in ("good", "typical", "bad", "value"):
            if exact(getattr(self, name)) <= 0:
                raise ValueError(f"{self.label}: a production rate is above zero")


def hours_for(amount: Decimal, rate: Decimal, measure: str) -> Decimal:
    """Person-hours for so many metres, square metres or pieces."""
    if measure in ("m/h", "m2/h"):
        return amount / rate
    if measure == "min each":
        return amount * rate / 60
    if measure == "h each":
        return amount * rate
    raise ValueError(f"no production rate is measured in “{measure}”")


# common practice, no source: good / typical / bad
_TABLE: tuple[tuple[str, str, Measure, str, str, str], ...] = (
    ("trench-machine", "Chain trencher, 0.30 to 0.45 m", "m/h", "50", "30", "10"),
    ("trench-hand", "Hand-dug trench, 0.30 m", "m/h", "4", "2.5", "1"),
    ("trench-near-service", "Hand-dug trench beside a buried service", "m/h", "1.5", "1", "0.5"),
    ("bore-short", "Bore under a path, up to 2 m", "min each", "45", "75", "150"),
    ("bore-long", "Bore under a drive, 2 to 6 m", "h each", "2", "4", "8"),
    ("pipe-stick", "Lay and cement sticks", "m/h", "45", "30", "18"),
    ("pipe-coil", "Lay coil in the trench", "m/h", "90", "60", "30"),
    ("cable", "Cable laid with the pipe", "m/h", "200", "120", "60"),
    ("backfill", "Backfill and tamp by hand", "m/h", "40", "25", "12"),
    ("turf", "Lift and relay turf", "m2/h", "15", "10", "6"),
    ("drip", "Drip line laid and pinned", "m/h", "80", "50", "25"),
    ("head", "Head with swing joint, set level", "min each", "8", "14", "25"),
    ("rotor", "Gear rotor with swing joint, set level", "min each", "10", "18", "30"),
    ("valve", "Valve in a manifold", "min each", "25", "40", "60"),
    ("box", "Valve box on gravel", "min each", "10", "20", "30"),
    ("splice", "Sealed splice", "min each", "3", "5", "8"),
    ("controller", "Controller mounted and terminated", "h each", "1", "2", "4"),
    ("sensor", "Rain or soil sensor", "h each", "0.5", "0.75", "1.5"),
    ("stake-out", "Setting out, start", "min each", "30", "30", "30"),
    ("stake-point", "Setting out, per point", "min each", "3", "4", "5"),
    ("pressure-test", "Pressure test of the main", "h each", "0.5", "0.5", "0.5"),
    ("flush-head", "Flush and adjust, per head", "min each", "6", "6", "6"),
    ("flush-zone", "Flush and adjust, per zone", "min each", "20", "20", "20"),
    ("handover", "As-built record and walk-through", "h each", "1.5", "2", "2.5"),
)

DEFAULT_RATES: Mapping[str, ProductionRate] = {
    work: ProductionRate(
        work, label, measure, Decimal(good), Decimal(typical), Decimal(bad), Decimal(typical)
    )
    for work, label, measure, good, typical, bad in _TABLE
}
