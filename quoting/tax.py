"""Tax on each visible line, or on the total of each rate; never both."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Literal

from quoting.money import ZERO, round_money, spread
from quoting.priced_quote import PricedLine, TaxAmount, VisibleLine

Group = tuple[str, Decimal, str]  # section, tax rate, text of an adjustment
Taxed = tuple[tuple[PricedLine, ...], tuple[VisibleLine, ...], tuple[TaxAmount, ...]]


def with_tax(lines: Sequence[PricedLine], tax_by: Literal["line", "total"]) -> Taxed:
    """Lines with their tax, what the customer sees of them, and the tax by rate.

    By ``line``, each visible line is rounded and the tax of a rate is their sum. By ``total``,
    the sum at a rate is rounded once and its tax spread over the visible lines.
    """
    groups: dict[Group, list[int]] = {}
    for i, line in enumerate(lines):
        text = line.text if line.kind == "adjustment" else ""
        groups.setdefault((line.section, line.tax_percent, text), []).append(i)
    nets = {key: sum((lines[i].price for i in group), ZERO) for key, group in groups.items()}
    taxes = _tax_by_group(nets, tax_by)
    taxed = list(lines)
    for key, group in groups.items():
        parts = _signed_spread(taxes[key], [abs(lines[i].price) for i in group])
        for i, part in zip(group, parts, strict=True):
            taxed[i] = replace(lines[i], tax=part)
    visible = tuple(
        VisibleLine(key[0], key[2], nets[key], key[1], taxes[key], _where(lines, group))
        for key, group in groups.items()
    )
    return tuple(taxed), visible, _by_rate(visible)


def _tax_by_group(nets: dict[Group, Decimal], tax_by: str) -> dict[Group, Decimal]:
    if tax_by == "line":
        return {key: round_money(net * key[1] / 100) for key, net in nets.items()}
    taxes: dict[Group, Decimal] = {}
    for rate in dict.fromkeys(key[1] for key in nets):
        keys = [key for key in nets if key[1] == rate]
        exact_taxes = [round_money(nets[key] * rate / 100) for key in keys]
        due = round_money(sum((nets[key] for key in keys), ZERO) * rate / 100)
        biggest = max(range(len(keys)), key=lambda i: (abs(nets[keys[i]]), -i))
        exact_taxes[biggest] += due - sum(exact_taxes, ZERO)
        taxes.update(zip(keys, exact_taxes, strict=True))
    return taxes


def _signed_spread(total: Decimal, weights: Sequence[Decimal]) -> tuple[Decimal, ...]:
    sign = -1 if total < 0 else 1
    return tuple(sign * part for part in spread(abs(total), weights))


def _by_rate(visible: Sequence[VisibleLine]) -> tuple[TaxAmount, ...]:
    rates = sorted({line.tax_percent for line in visible})
    return tuple(
        TaxAmount(
            rate,
            sum((line.amount for line in visible if line.tax_percent == rate), ZERO),
            sum((line.tax for line in visible if line.tax_percent == rate), ZERO),
        )
        for rate in rates
    )


def _where(lines: Sequence[PricedLine], group: Sequence[int]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(place for i in group for place in lines[i].where))
