"""Money: decimals only, one rounding rule, and splits that never lose a cent."""

from collections.abc import Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal

Exact = Decimal | int | str
ZERO = Decimal("0")


def exact(value: Exact) -> Decimal:
    """``value`` as a finite decimal; a float raises TypeError, for it may carry a binary tail."""
    if isinstance(value, bool) or not isinstance(value, Decimal | int | str):
        raise TypeError(f"money is a Decimal, an int or a string, not {type(value).__name__}")
    amount = Decimal(value)
    if not amount.is_finite():
        raise ValueError(f"{value!r} is no amount")
    return amount


def round_money(amount: Exact, places: int = 2) -> Decimal:
    """Half up (away from zero), to ``places`` decimals. The only rounding of money there is."""
    return exact(amount).quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP) + ZERO


def round_up_to_step(amount: Exact, step: Exact) -> Decimal:
    """The least multiple of ``step`` that is not below ``amount``; a step of 0 leaves the cents."""
    amount, step = exact(amount), exact(step)
    if step < 0:
        raise ValueError("a rounding step is not negative")
    if step == 0:
        return round_money(amount)
    return round_money((amount / step).to_integral_value(ROUND_CEILING) * step)


def spread(total: Exact, weights: Sequence[Exact], places: int = 2) -> tuple[Decimal, ...]:
    """Split ``total`` in proportion to ``weights`` so that the parts sum to it exactly.

    Each part is rounded down to a cent; the cents left over go to the largest remainders,
    the earlier part first on a tie. With no weight at all, the first part takes everything.
    """
    whole = round_money(total, places)
    shares = [exact(weight) for weight in weights]
    if not shares:
        raise ValueError("nothing to spread over")
    if any(share < 0 for share in shares):
        raise ValueError("a weight is not negative")
    if sum(shares) == 0:
        shares[0] = Decimal(1)
    cent = Decimal(1).scaleb(-places)
    ideal = [whole * share / sum(shares) for share in shares]
    parts = [part.quantize(cent, rounding=ROUND_FLOOR) for part in ideal]
    left = int((whole - sum(parts, ZERO)) / cent)
    by_remainder = sorted(range(len(parts)), key=lambda i: (parts[i] - ideal[i], i))
    for index in by_remainder[:left]:
        parts[index] += cent
    return tuple(parts)


def price_at_margin(cost: Exact, margin: Exact) -> Decimal:
    """The price of which ``margin`` (a share, 0 to below 1) is left after ``cost``."""
    margin = exact(margin)
    if not 0 <= margin < 1:
        raise ValueError("a margin is a share from 0 to below 1")
    return round_money(exact(cost) / (1 - margin))


def price_at_markup(cost: Exact, markup: Exact) -> Decimal:
    """``cost`` with ``markup`` (a share of the cost) on top."""
    markup = exact(markup)
    if markup < 0:
        raise ValueError("a markup is not negative")
    return round_money(exact(cost) * (1 + markup))


def markup_of_margin(margin: Exact) -> Decimal:
    """The markup that gives the same price as that margin: m / (1 - m)."""
    margin = exact(margin)
    if not 0 <= margin < 1:
        raise ValueError("a margin is a share from 0 to below 1")
    return margin / (1 - margin)


def margin_of_markup(markup: Exact) -> Decimal:
    """The margin that gives the same price as that markup: k / (1 + k)."""
    markup = exact(markup)
    if markup < 0:
        raise ValueError("a markup is not negative")
    return markup / (1 + markup)
