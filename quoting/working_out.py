"""From a plan revision to cost lines: check, take-off, hours, hire, licensed trades and fees."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from design.document import ControllerNode, Plan
from design.report import CheckReport
from hydraulics.catalogue import Part
from parts.services import PriceNow, best_prices, catalogue
from quoting.costing import PartPrice, labour_costs, material_costs, plant_costs
from quoting.errors import PlanNotPriceable
from quoting.labour import LabourLine, days_on_site, labour_lines, plant_lines
from quoting.models import Policy, ProductionRate
from quoting.policies import labour_settings, rates_dict
from quoting.priced_quote import Kind
from quoting.pricing_inputs import CostLine
from quoting.pricing_rates import hourly_cost
from quoting.takeoff import take_off
from sites.errors import CheckFailed
from sites.models import PlanRevision
from sites.services import check_revision

ZERO, ONE = Decimal(0), Decimal(1)


@dataclass(frozen=True)
class Rates:
    """What a company charges and how fast it works, on one day."""

    policy: Policy
    production: Mapping[str, ProductionRate]
    today: date


@dataclass(frozen=True)
class WorkedOut:
    report: CheckReport
    lines: tuple[CostLine, ...]
    suppliers: Mapping[str, str]  # by key of the line
    parts: Mapping[str, Part]  # by key of the line
    notes: tuple[str, ...]


def work_out(revision: PlanRevision, rates: Rates, *, machine_access: bool = True) -> WorkedOut:
    """Everything that the plan costs. Raises PlanNotPriceable with a sentence on what to mend."""
    try:
        return _work_out(revision, rates, machine_access)
    except (CheckFailed, LookupError) as error:
        raise PlanNotPriceable(f"This plan cannot be priced yet. {error}") from error


def _work_out(revision: PlanRevision, rates: Rates, machine_access: bool) -> WorkedOut:
    plan = Plan.model_validate(revision.document)
    report, parts = check_revision(revision), catalogue()
    takeoff = take_off(plan, report, parts)
    settings = labour_settings(rates.policy, machine_access=machine_access)
    labour = labour_lines(takeoff, report, rates.production, settings)
    plant = plant_lines(labour, settings)
    codes = {quantity.part for quantity in takeoff.quantities if quantity.part}
    prices = best_prices(rates.today, codes)
    stored = rates_dict(rates.policy, {})
    hours = sum((line.hours for line in labour if line.work not in _DAY_WORK), ZERO)
    lines = (
        *material_costs(takeoff, {code: _part_price(row) for code, row in prices.items()}),
        *labour_costs(labour, hourly_cost(stored)),
        *plant_costs(plant, {"trencher": rates.policy.hire_per_day}),
        *_vehicle(days_on_site(hours, settings), rates.policy, labour),
        *_trades_and_fees(plan, rates.policy),
    )
    parts_of = {quantity.key: quantity.part for quantity in takeoff.quantities if quantity.part}
    suppliers = {key: prices[code].supplier_name for key, code in parts_of.items() if code in prices}
    sheets = {key: parts[code] for key, code in parts_of.items() if code in parts}
    return WorkedOut(report, lines, suppliers, sheets, tuple(note.sentence for note in takeoff.notes))


_DAY_WORK = ("set-up", "travel", "smallest-job")


def _part_price(row: PriceNow) -> PartPrice:
    return PartPrice(row.code, row.price, row.pack, row.valid_from)


def _vehicle(days: Decimal, policy: Policy, labour: tuple[LabourLine, ...]) -> Iterator[CostLine]:
    if policy.travel_per_day and days and labour:
        how = f"{days:g} crew day{'' if days == 1 else 's'}"
        yield CostLine(
            "hire/vehicle", "commissioning", "hire", "Vehicle", days, "day", policy.travel_per_day, (), how
        )


def _trades_and_fees(plan: Plan, policy: Policy) -> Iterator[CostLine]:
    """Allowances for what only licensed people may do, and what the authorities ask for."""
    controllers = tuple(n.id for n in plan.layout.nodes if isinstance(n, ControllerNode))
    supply = tuple(node.id for node in plan.layout.nodes if node.kind == "supply")
    plumber = "Supply connection and backflow protection by a licensed plumber"
    power = "Power for the controller by a licensed electrician"
    rows: tuple[tuple[str, str, Kind, str, Decimal, tuple[str, ...]], ...] = (
        ("plumber", "specialists", "subcontract", plumber, policy.plumber_allowance, supply),
        ("electrician", "specialists", "subcontract", power, policy.electrician_allowance, controllers),
        ("permit", "permits", "permit", "Permit", policy.permit_fee, supply),
        ("locate", "permits", "permit", "Locating of buried services", policy.locate_fee, supply),
    )
    for key, section, kind, text, amount, where in rows:
        if amount and where:
            yield CostLine(f"fee/{key}", section, kind, text, ONE, "each", amount, where, "allowance")
