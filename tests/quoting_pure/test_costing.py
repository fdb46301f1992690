"""Quantities and hours as cost lines, by the metre, the piece or the pack."""

import json
import subprocess
import sys
from datetime import date
from decimal import Decimal

import pytest

from quoting.costing import HourlyCost, PartPrice, labour_costs, material_costs, plant_costs
from quoting.labour import labour_lines, plant_lines
from quoting.pricing import PricingInputs, PricingSettings, price
from quoting.production_rates import DEFAULT_RATES
from quoting.takeoff import Quantity, TakeOff, take_off
from tests.quoting_pure.builders import ROOT, load_book, load_s1, make_report

D = Decimal
DAY = date(2026, 10, 1)


def quantity(role: str, count: str, unit: str, pack: str = "1", part: str | None = "x") -> Quantity:
    net = D(count) * D(pack)
    return Quantity("part", role, "key", "X", D(count), unit, net, "m", ("P1",), "counted", part, D(pack))


def costed(line: Quantity, price_of_pack: str, pack: str) -> tuple[Decimal, str, Decimal | None, Decimal]:
    prices = {"x": PartPrice("x", D(price_of_pack), D(pack), DAY)}
    (cost,) = material_costs(TakeOff((line,)), prices)
    return cost.quantity, cost.unit, cost.unit_cost, cost.cost


def test_sticks_are_priced_by_the_stick_where_the_price_is_for_that_stick() -> None:
    assert costed(quantity("pipe", "16", "stick", "6"), "8.42", "6") == (16, "stick", D("8.42"), D("134.72"))


def test_pipe_is_priced_by_the_metre_where_the_price_is_for_a_metre() -> None:
    assert costed(quantity("pipe", "2", "coil", "50"), "0.92", "1") == (100, "m", D("0.9200"), D("92.00"))


def test_a_shorter_stick_costs_its_share_of_the_priced_one() -> None:
    assert costed(quantity("pipe", "2", "stick", "3"), "8.40", "6") == (6, "m", D("1.4000"), D("8.40"))


def test_pieces_of_a_pack_of_ten_cost_a_tenth_each() -> None:
    assert costed(quantity("tee", "3", "each"), "12.50", "10") == (3, "each", D("1.2500"), D("3.75"))


def test_what_has_no_part_or_no_price_stays_on_the_list_without_a_cost() -> None:
    lines = TakeOff((quantity("tee", "3", "each", part=None), quantity("cap", "1", "each", part="unpriced")))
    assert [(line.unit_cost, line.cost) for line in material_costs(lines, {})] == [(None, 0), (None, 0)]


def test_ground_and_counts_are_no_material() -> None:
    ground = Quantity("ground", "spoil", "spoil", "soil", D(3), "m3", D(3), "m3", (), "")
    assert list(material_costs(TakeOff((ground,)), {})) == []


def test_an_hour_costs_the_wage_and_its_burden() -> None:
    assert HourlyCost(D("30.00"), D("1.30")).cost == D("39.00")


@pytest.mark.parametrize(("amount", "pack"), [("-1", "1"), ("1", "0")])
def test_an_impossible_price_is_refused(amount: str, pack: str) -> None:
    with pytest.raises(ValueError, match="not negative"):
        PartPrice("x", D(amount), D(pack), DAY)


def test_a_machine_without_a_rate_has_no_price_and_says_so() -> None:
    plan = load_s1()
    report = make_report(plan)
    labour = labour_lines(take_off(plan, report, load_book()), report, DEFAULT_RATES)
    (hire,) = plant_costs(plant_lines(labour), {})
    assert hire.unit_cost is None
    (hire,) = plant_costs(plant_lines(labour), {"trencher": D(180)})
    assert hire.cost == 90


def test_the_plain_rectangle_goes_from_plan_to_price_with_each_line_priced() -> None:
    """The whole way with the demo's book: nothing lacks a price, and each line knows its places."""
    book = json.loads((ROOT / "demo" / "price_book.json").read_text())
    prices = {}
    for part in book["parts"]:
        last = part["prices"][-1]
        code = part["data"]["code"]
        on = date.fromisoformat(last["valid_from"])
        prices[code] = PartPrice(code, D(last["price"]), D(str(last["pack"])), on)
    plan = load_s1()
    report = make_report(plan)
    takeoff = take_off(plan, report, load_book())
    labour = labour_lines(takeoff, report, DEFAULT_RATES)
    lines = (
        *material_costs(takeoff, prices),
        *labour_costs(labour, HourlyCost(D(30))),
        *plant_costs(plant_lines(labour), {"trencher": D(180)}),
    )
    quote = price(PricingInputs(lines, PricingSettings(), date(2026, 11, 25)))
    assert "price.missing" not in {finding.code for finding in quote.findings}
    assert {line.section for line in quote.visible} == {
        "ground", "pipe", "heads", "valves", "control", "supply", "commissioning",
    }  # fmt: skip
    assert all(line.where for line in quote.lines)
    heads = next(line for line in quote.lines if line.key == "rotary-6")
    assert heads.cost == D("180.60")  # 15 at 12.04


def test_the_pure_modules_import_no_django() -> None:
    modules = "quoting.takeoff, quoting.labour, quoting.costing, quoting.pricing, quoting.priced_quote_json"
    code = f"import sys, {modules}; sys.exit('django' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=False).returncode == 0
