"""Decimals only, one rounding rule, and splits that never lose a cent."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.money import (
    margin_of_markup,
    markup_of_margin,
    price_at_margin,
    price_at_markup,
    round_money,
    round_up_to_step,
    spread,
)

amounts = st.decimals(min_value=0, max_value=10**7, places=2)


@pytest.mark.parametrize("value", [0.1, 1.0, float("nan"), True, None])
def test_anything_but_an_exact_number_is_refused(value: Any) -> None:
    with pytest.raises(TypeError):
        round_money(value)


@pytest.mark.parametrize("value", ["NaN", "Infinity", Decimal("-Infinity")])
def test_what_is_no_amount_is_refused(value: Any) -> None:
    with pytest.raises(ValueError, match="no amount"):
        round_money(value)


@pytest.mark.parametrize(
    ("value", "rounded"),
    [("0.005", "0.01"), ("0.0049", "0.00"), ("2.675", "2.68"), ("-0.005", "-0.01"), ("1.125", "1.13")],
)
def test_a_half_goes_up(value: str, rounded: str) -> None:
    assert round_money(value) == Decimal(rounded)


def test_zero_has_no_sign() -> None:
    assert str(round_money("-0.001")) == "0.00"


@pytest.mark.parametrize(
    ("amount", "step", "result"),
    [("5875.26", 5, "5880.00"), ("5875.00", 5, "5875.00"), ("5875.01", 10, "5880.00"), ("101", 50, "150.00")],
)
def test_a_total_goes_up_to_the_step(amount: str, step: int, result: str) -> None:
    assert round_up_to_step(amount, step) == Decimal(result)


def test_a_step_of_zero_leaves_the_cents() -> None:
    assert round_up_to_step("12.345", 0) == Decimal("12.35")


@given(amounts, st.sampled_from([5, 10, 50]))
def test_rounding_up_adds_less_than_a_step_and_never_takes(amount: Decimal, step: int) -> None:
    rounded = round_up_to_step(amount, step)
    assert 0 <= rounded - amount < step
    assert rounded % step == 0


@given(amounts, st.lists(st.decimals(min_value=0, max_value=10**6, places=3), min_size=1, max_size=20))
def test_parts_sum_to_the_whole_and_lie_within_a_cent_of_their_share(
    total: Decimal, weights: list[Decimal]
) -> None:
    parts = spread(total, weights)
    assert sum(parts) == total
    if sum(weights):
        for part, weight in zip(parts, weights, strict=True):
            assert abs(part - total * weight / sum(weights)) < Decimal("0.01")


def test_left_over_cents_go_to_the_largest_remainders() -> None:
    assert spread("1.00", [1, 1, 1]) == (Decimal("0.34"), Decimal("0.33"), Decimal("0.33"))
    assert spread("0.05", [1, 2]) == (Decimal("0.02"), Decimal("0.03"))


def test_spreading_over_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing to spread over"):
        spread("1.00", [])
    with pytest.raises(ValueError, match="not negative"):
        spread("1.00", [1, -1])


@pytest.mark.parametrize(
    ("margin", "markup"), [("0.20", "0.25"), ("0.25", "0.3333"), ("0.40", "0.6667"), ("0.50", "1")]
)
def test_a_margin_and_its_markup_give_the_same_price(margin: str, markup: str) -> None:
    """Table of the trade: common practice, no source (it is arithmetic: k = m / (1 - m))."""
    assert round_money(markup_of_margin(margin), 4) == Decimal(markup)
    assert round_money(margin_of_markup(markup_of_margin(margin)), 6) == Decimal(margin)
    assert price_at_margin(1000, margin) == price_at_markup(1000, markup_of_margin(margin))


def test_a_margin_of_everything_is_refused() -> None:
    with pytest.raises(ValueError, match="margin"):
        price_at_margin(100, 1)
