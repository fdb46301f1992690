"""Quantities, hours and hire as cost lines, with the company's prices."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quoting.labour import LabourLine, PlantLine
from quoting.money import exact, round_money
from quoting.pricing_inputs import CostLine
from quoting.takeoff.quantities import Quantity, TakeOff

METRE_GOODS = ("pipe", "drip_line", "cable")

# heading that a role of the take-off comes under; all the rest is pipe and fittings
SECTIONS: Mapping[str, str] = {
    "sleeve": "ground", "warning_tape": "ground", "sand": "ground",
    "head": "heads", "swing_joint": "heads", "drip_line": "heads", "drip_connector": "heads",
    "flush_point": "heads", "pin": "heads", "air_vent": "heads",
    "valve": "valves", "valve_box": "valves", "isolation_valve": "valves", "filter_regulator": "valves",
    "gravel": "valves", "manifold_tee": "valves", "manifold_elbow": "valves",
    "controller": "control", "cable": "control", "connector": "control", "rain_sensor": "control",
    "backflow": "supply",
}  # fmt: skip


@dataclass(frozen=True)
class PartPrice:
    """What one pack of a part costs. A pack counts metres of pipe, drip line and cable, else pieces."""

    code: str
    price: Decimal
    pack: Decimal
    priced_on: date

    def __post_init__(self) -> None:
        if exact(self.price) < 0 or exact(self.pack) <= 0:
            raise ValueError(f"{self.code}: a price is not negative and a pack is above zero")


@dataclass(frozen=True)
class HourlyCost:
    """What an hour of own work costs: the wage times what comes on top of it."""

    wage: Decimal
    burden: Decimal = Decimal("1.30")

    @property
    def cost(self) -> Decimal:
        return exact(self.wage) * exact(self.burden)


def material_costs(takeoff: TakeOff, prices: Mapping[str, PartPrice]) -> Iterator[CostLine]:
    """One line per quantity that is bought; without a price where the book has none."""
    for quantity in takeoff.quantities:
        if quantity.kind == "part":
            yield _material(quantity, prices.get(quantity.part or ""))


def _material(quantity: Quantity, price: PartPrice | None) -> CostLine:
    count, unit, unit_cost = _priced_by(quantity, price)
    return CostLine(
        key=quantity.key,
        section=SECTIONS.get(quantity.role, "pipe"),
        kind="material",
        text=quantity.description,
        quantity=count,
        unit=unit,
        unit_cost=unit_cost,
        where=quantity.where,
        how=quantity.how,
        priced_on=price.priced_on if price else None,
    )


def _priced_by(quantity: Quantity, price: PartPrice | None) -> tuple[Decimal, str, Decimal | None]:
    """By the pack where the price is for that very pack, else by the metre or the piece."""
    if price is None:
        return quantity.quantity, quantity.unit, None
    if quantity.pack == price.pack:
        return quantity.quantity, quantity.unit, price.price
    unit_cost = round_money(price.price / price.pack, 4)
    if quantity.role in METRE_GOODS:
        return quantity.measure, quantity.net_unit, unit_cost
    return quantity.quantity, quantity.unit, unit_cost


def labour_costs(lines: Iterable[LabourLine], hourly: HourlyCost) -> Iterator[CostLine]:
    for line in lines:
        yield CostLine(
            key=f"labour/{line.work}",
            section=line.section,
            kind="labour",
            text=line.label,
            quantity=line.hours,
            unit="h",
            unit_cost=hourly.cost,
            where=line.where,
            how=line.how,
            hours=line.hours,
        )


def plant_costs(lines: Sequence[PlantLine], day_rates: Mapping[str, Decimal]) -> Iterator[CostLine]:
    """Hire by the day; a machine for which there is no rate has no price, and says so."""
    for line in lines:
        yield CostLine(
            key=f"hire/{line.work}",
            section="ground",
            kind="hire",
            text=line.label,
            quantity=line.days,
            unit="day",
            unit_cost=day_rates.get(line.work),
            where=line.where,
            how=line.how,
        )
