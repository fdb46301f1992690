"""From cost to price: the worked job to the cent, and sums that hold for any job."""

import json
import re
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hydraulics.findings import Severity
from quoting.money import markup_of_margin, round_money
from quoting.priced_quote import PricedQuote, SumsDiffer, Target
from quoting.priced_quote_json import priced_quote_from_dict, priced_quote_to_dict
from quoting.pricing import (
    CostLine,
    Discount,
    PricingInputs,
    PricingSettings,
    StageShare,
    contingency_for,
    price,
)

TODAY = date(2026, 11, 25)
D = Decimal
KINDS = ("labour", "material", "hire", "subcontract", "permit")
EIGHT = dict.fromkeys(KINDS, D(8))
PAGE = Path(__file__).resolve().parents[2] / "docs" / "pricing.md"


def cost(key: str, kind: Any, quantity: str, unit_cost: str | None, **more: Any) -> CostLine:
    unit = None if unit_cost is None else D(unit_cost)
    return CostLine(key, more.pop("section", "pipe"), kind, key, D(quantity), "each", unit, **more)


def worked_job(**changes: Any) -> PricingInputs:
    lines = (
        cost("digging", "labour", "38", "39.00", hours=D(38), section="ground", where=("P1", "P2")),
        cost("pipe", "material", "1", "1450.00", where=("P1",)),
        cost("plumber", "subcontract", "1", "650.00", section="specialists"),
        cost("permit", "permit", "1", "120.00", section="permits"),
    )
    return PricingInputs(lines, replace(PricingSettings(tax_percent=EIGHT), **changes), TODAY)


def table(heading: str) -> list[list[str]]:
    """Rows of the first table under that heading of the page, without its head."""
    text = PAGE.read_text().split(f"## {heading}\n")[1].split("\n## ")[0]
    rows = [
        [cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line[:1] == "|"
    ]
    return rows[2:]


def test_the_worked_table_of_the_page_comes_out_to_the_cent() -> None:
    """The sums are arithmetic; the percentages are common practice, no source."""
    quote = price(worked_job())
    got = {
        "labour": quote.cost.labour,
        "overhead": quote.cost.overhead,
        "materials": quote.cost.material,
        "contingency": quote.cost.contingency,
        "own cost": quote.cost.own,
        "own price": quote.own_price,
        "the same 15 % taken as a markup": Target("markup", D("0.15")).price(quote.cost.own),
        "given away by that mistake": next(
            f for f in quote.findings if f.code == "margin.not_markup"
        ).measured,
        "subcontract": next(line.price for line in quote.lines if line.key == "plumber"),
        "permit": next(line.price for line in quote.lines if line.key == "permit"),
        "sum": quote.computed,
        "rounded up": quote.net,
        "tax": quote.tax,
        "total": quote.total,
        "deposit": quote.deposit,
        "gross profit before overhead": quote.gross_profit,
    }
    page = {name: D(amount) for name, _, amount in table("A worked job")}
    assert got == page
    assert round_money(quote.gross_margin * 100, 1) == D("34.5")


def test_the_worked_job_as_the_trade_told_it() -> None:
    """The same figures once more, so that page and program cannot be wrong together."""
    quote = price(worked_job())
    assert (quote.cost.own, quote.own_price, quote.computed) == (D("4256.60"), D("5007.76"), D("5875.26"))
    assert (quote.net, quote.tax, quote.total) == (D("5880.00"), D("470.40"), D("6350.40"))
    assert (quote.deposit, quote.gross_profit) == (D("1905.12"), D("2031.40"))
    assert [s.amount for s in quote.stages] == [D("1905.12"), D("2540.16"), D("1270.08"), D("635.04")]


def test_the_page_says_what_a_margin_is_as_a_markup() -> None:
    for margin, markup in table("A margin is not a markup"):
        share = D(margin.rstrip(" %")) / 100
        assert round_money(markup_of_margin(share) * 100, 1) == D(markup.rstrip(" %"))


def test_rounding_up_is_taken_up_by_one_visible_line() -> None:
    quote = price(worked_job())
    assert (quote.rounding, quote.adjusted_key) == (D("4.74"), "digging")
    plain = price(worked_job(round_up_step=D(0)))
    differing = [
        (a.key, a.price - b.price)
        for a, b in zip(quote.lines, plain.lines, strict=True)
        if a.price != b.price
    ]
    assert differing == [("digging", D("4.74"))]


def test_a_gross_margin_below_35_warns_and_below_25_stops() -> None:
    """Limits: common practice, no source."""
    found = {f.code: f.severity for f in price(worked_job()).findings}
    assert found["margin.gross.low"] == Severity.WARN
    thin = worked_job(targets={**PricingSettings().targets, "labour": Target("margin", D(0))})
    cheap = replace(thin, discount=Discount("Thank you", amount=D(900)))
    assert {f.code: f.severity for f in price(cheap).findings}["margin.gross.low"] == Severity.STOP
    rich = worked_job(targets={**PricingSettings().targets, "labour": Target("margin", D("0.4"))})
    assert "margin.gross.low" not in {f.code for f in price(rich).findings}


@pytest.mark.parametrize(
    ("days", "severity"), [(60, None), (61, Severity.WARN), (90, Severity.WARN), (91, Severity.STOP)]
)
def test_a_price_grows_old_after_60_days_and_stops_after_90(days: int, severity: Severity | None) -> None:
    """Limits: common practice, no source."""
    line = cost("pipe", "material", "1", "100.00", priced_on=TODAY - timedelta(days=days))
    found = {f.code: f.severity for f in price(PricingInputs((line,), PricingSettings(), TODAY)).findings}
    assert found.get("price.old") == severity


def test_a_line_without_a_price_stops_the_quote_until_someone_sets_one() -> None:
    line = cost("tee", "material", "2", None)
    found = price(PricingInputs((line,), PricingSettings(), TODAY)).findings
    assert [(f.code, f.severity, f.where) for f in found] == [("price.missing", Severity.STOP, ("tee",))]
    by_hand = replace(line, fixed_price=D("25.00"))
    quote = price(PricingInputs((by_hand,), PricingSettings(), TODAY))
    assert (quote.findings, quote.net) == ((), D("25.00"))


def test_a_price_set_by_hand_stays_and_the_others_keep_theirs() -> None:
    job = worked_job(round_up_step=D(0))
    digging = replace(job.lines[0], fixed_price=D("3000.00"))
    quote = price(replace(job, lines=(digging, *job.lines[1:])))
    prices = {line.key: line.price for line in quote.lines}
    assert prices["digging"] == D("3000.00")
    # 1450.00 + 72.50 contingency at a margin of 15 %: 1522.50 / 0.85
    assert prices["pipe"] == D("1791.18")


def test_each_kind_may_have_its_own_target() -> None:
    targets = {**PricingSettings().targets, "material": Target("markup", D("0.30"))}
    quote = price(worked_job(targets=targets, round_up_step=D(0)))
    prices = {line.key: line.price for line in quote.lines}
    # materials 1522.50 x 1.30; labour 1482.00 + 1178.00 + 74.10 = 2734.10, / 0.85
    assert (prices["pipe"], prices["digging"]) == (D("1979.25"), D("3216.59"))
    assert "margin.not_markup" not in {f.code for f in quote.findings}


def test_the_smallest_job_comes_before_the_discount_and_each_is_a_line() -> None:
    job = worked_job(minimum_job=D(6000))
    quote = price(replace(job, discount=Discount("Neighbours together", percent=D(10))))
    shown = {line.text: line.amount for line in quote.visible if line.text}
    assert shown == {"To our smallest job": D("124.74"), "Neighbours together": D("-600.00")}
    assert quote.net == D("5400.00")


def test_a_discount_is_split_over_the_tax_rates() -> None:
    rates = {**EIGHT, "permit": D(0)}
    quote = price(replace(worked_job(tax_percent=rates), discount=Discount("Off", amount=D(100))))
    off = {line.tax_percent: line.amount for line in quote.visible if line.text == "Off"}
    # 120.00 of 5875.26 is not taxed: 2.04 of the discount falls on it
    assert off == {D(8): D("-97.96"), D(0): D("-2.04")}


def test_a_discount_beyond_the_price_is_refused() -> None:
    with pytest.raises(ValueError, match="more than the price"):
        price(replace(worked_job(), discount=Discount("All", amount=D(99999))))


def test_tax_on_each_line_and_on_the_total_may_differ_by_cents() -> None:
    """Three lines of 0.50 at 5 %: 0.025 each rounds to 0.03, together 0.075 rounds to 0.08."""
    lines = tuple(cost(s, "permit", "1", "0.50", section=s) for s in ("a", "b", "c"))
    base = PricingSettings(tax_percent={"permit": D(5)}, round_up_step=D(0))
    by_line = price(PricingInputs(lines, replace(base, tax_by="line"), TODAY))
    by_total = price(PricingInputs(lines, base, TODAY))
    assert (by_line.tax, by_total.tax) == (D("0.09"), D("0.08"))


def test_a_legal_cap_lowers_the_deposit_and_the_last_stage_takes_the_rest() -> None:
    quote = price(worked_job(deposit_cap_percent=D(10), deposit_cap_amount=D("500.00")))
    assert [s.amount for s in quote.stages] == [D("500.00"), D("2540.16"), D("1270.08"), D("2040.16")]
    assert "deposit.capped" in {f.code for f in quote.findings}


def test_stages_that_do_not_make_a_whole_are_refused() -> None:
    with pytest.raises(ValueError, match="100 %"):
        price(worked_job(stages=(StageShare("Now", D(30)), StageShare("Later", D(60)))))


@pytest.mark.parametrize(
    ("drivers", "percent"),
    [((), 3), (("no_probe_holes",), 7), (("old_system_reused", "provisional_supply", "roots_or_rock"), 17)],
)
def test_contingency_adds_up_what_is_uncertain(drivers: tuple[str, ...], percent: int) -> None:
    """Drivers: common practice, no source."""
    assert contingency_for(drivers) == percent


def test_contingency_stops_at_20_percent() -> None:
    everything = ("no_probe_holes", "old_system_reused", "provisional_supply", "roots_or_rock", "wet_season")
    assert contingency_for(everything) == 20
    quote = price(worked_job(contingency_percent=D(30)))
    assert quote.cost.contingency == D("586.40")  # 20 % of 2932.00
    assert "contingency.capped" in {f.code for f in quote.findings}


def test_sections_keep_the_plan_entities_of_their_lines() -> None:
    places = {line.section: line.where for line in price(worked_job()).visible}
    assert (places["ground"], places["pipe"]) == (("P1", "P2"), ("P1",))


def test_no_visible_line_tells_cost_hours_or_margin() -> None:
    fields = set(price(worked_job()).visible[0].__dataclass_fields__)
    assert fields == {"section", "text", "amount", "tax_percent", "tax", "where"}


def test_a_quote_whose_parts_do_not_add_up_cannot_exist() -> None:
    quote = price(worked_job())
    for change in (
        {"net": quote.net + 1},
        {"tax": quote.tax + 1},
        {"total": quote.total + 1},
        {"stages": quote.stages[1:]},
    ):
        with pytest.raises(SumsDiffer):
            replace(quote, **change)


def test_an_empty_job_costs_nothing() -> None:
    quote = price(PricingInputs((), PricingSettings(), TODAY))
    assert (quote.total, quote.visible) == (0, ())


def test_floats_are_refused_in_a_cost() -> None:
    with pytest.raises(TypeError):
        CostLine("a", "pipe", "material", "a", D(1), "each", 0.1)  # type: ignore[arg-type]


money = st.decimals(min_value=0, max_value=20000, places=2)


@st.composite
def jobs(draw: Any) -> PricingInputs:
    lines = []
    for number in range(draw(st.integers(1, 12))):
        kind = draw(st.sampled_from(KINDS))
        lines.append(
            cost(
                f"L{number}",
                kind,
                str(draw(st.decimals(min_value=0, max_value=200, places=3))),
                draw(st.one_of(st.none(), money.map(str))),
                section=draw(st.sampled_from(["ground", "pipe", "heads"])),
                hours=draw(st.decimals(min_value=0, max_value=80, places=2)) if kind == "labour" else D(0),
                fixed_price=draw(st.one_of(st.none(), money)) if number % 4 == 3 else None,
            )
        )
    rates = st.sampled_from([D(0), D(8), D("19"), D("5.5")])
    shares = st.sampled_from([D(0), D("0.15"), D("0.333")])
    method = st.sampled_from(["margin", "markup"])
    choices = PricingSettings(
        tax_percent={kind: draw(rates) for kind in KINDS},
        targets={kind: Target(draw(method), draw(shares)) for kind in KINDS},
        tax_by=draw(st.sampled_from(["line", "total"])),
        round_up_step=draw(st.sampled_from([None, D(0), D(5), D(50)])),
        minimum_job=draw(st.sampled_from([D(0), D(1500)])),
        contingency_percent=draw(st.sampled_from([D(0), D(5), D("12.5")])),
        deposit_cap_percent=draw(st.sampled_from([None, D(10)])),
    )
    off = draw(st.one_of(st.none(), st.just(Discount("Off", percent=D("7.5")))))
    return PricingInputs(tuple(lines), choices, TODAY, off)


@settings(max_examples=150, deadline=None)
@given(jobs())
def test_lines_sections_tax_and_stages_sum_to_the_total(job: PricingInputs) -> None:
    """Constructing the quote checks its own sums; here they are added up once more, apart from it."""
    quote = price(job)
    assert sum(line.price for line in quote.lines) == sum(v.amount for v in quote.visible) == quote.net
    assert quote.net + sum(v.tax for v in quote.visible) == quote.total
    assert sum(stage.amount for stage in quote.stages) == quote.total
    assert (
        sum(line.full_cost for line in quote.lines)
        == quote.cost.own + quote.cost.subcontract + quote.cost.permit
    )
    for value in (quote.net, quote.tax, quote.total, *(line.price for line in quote.lines)):
        assert value == round_money(value)
    by_key = {line.key: line.price for line in quote.lines}
    for line in job.lines:
        if line.fixed_price is not None:
            assert by_key[line.key] == line.fixed_price


@settings(max_examples=100, deadline=None)
@given(jobs())
def test_rounding_up_never_loses_a_cent_and_never_adds_a_step(job: PricingInputs) -> None:
    quote = price(job)
    before = price(replace(job, settings=replace(job.settings, round_up_step=D(0)))).net
    assert quote.net == before + quote.rounding
    step = job.settings.round_up_step
    if step:
        assert quote.net % step == 0
        assert 0 <= quote.rounding < step


@settings(max_examples=60, deadline=None)
@given(jobs())
def test_a_quote_survives_json_and_holds_no_float(job: PricingInputs) -> None:
    quote = price(job)
    text = json.dumps(priced_quote_to_dict(quote))
    assert priced_quote_from_dict(json.loads(text)) == quote
    assert not re.search(r"[:\[,] ?-?\d+\.\d", text)


def test_a_tampered_seal_is_refused() -> None:
    data = priced_quote_to_dict(price(worked_job()))
    data["lines"][0]["price"] = "1.00"
    with pytest.raises(ValueError, match="net price"):
        priced_quote_from_dict(data)
    data["lines"][0]["price"] = 1.5
    with pytest.raises(TypeError, match="strings"):
        priced_quote_from_dict(data)


def test_types_come_back_as_they_were() -> None:
    quote = price(worked_job())
    again = priced_quote_from_dict(priced_quote_to_dict(quote))
    assert isinstance(again, PricedQuote)
    assert isinstance(again.lines[0].price, Decimal)
    assert again.findings[0].severity is Severity.WARN
