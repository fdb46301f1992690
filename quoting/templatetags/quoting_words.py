"""Amounts, percents and days in templates, as the company writes them."""

import json
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django import template

from office.company import get_company
from quoting.models import Status
from quoting.money import round_money
from quoting.money_words import date_words, money_words, percent_words
from quoting.priced_quote import PriceFinding

register = template.Library()
_TAGS = {
    Status.DRAFT: "note",
    Status.ISSUED: "warn",
    Status.ACCEPTED: "good",
    Status.DECLINED: "stop",
    Status.LAPSED: "stop",
    Status.SUPERSEDED: "note",
}
_FEET_PER_M = 1 / Decimal("0.3048")
_IN_FEET = {"m": (_FEET_PER_M, "ft"), "m2": (_FEET_PER_M**2, "ft²"), "m3": (_FEET_PER_M**3, "ft³")}
_SIGNS = {"m2": "m²", "m3": "m³"}
_COUNTED = ("roll", "stick", "coil", "length", "tin", "bag", "day")


@register.simple_tag(takes_context=True)
def money(context: Any, amount: Decimal | None) -> str:
    """In the company's currency; a dash where there is no amount yet."""
    if amount is None:
        return "—"
    company = context.get("company") or get_company()
    return money_words(amount, company.currency, company.locale)


@register.simple_tag
def offer_money(offer: Mapping[str, Any], amount: str) -> str:
    """In the currency and language that the offer was written in."""
    return money_words(amount, offer["currency"], offer["locale"])


@register.simple_tag
def offer_percent(offer: Mapping[str, Any], percent: str) -> str:
    return percent_words(percent, offer["locale"])


@register.simple_tag
def offer_day(offer: Mapping[str, Any], day: date | str) -> str:
    return date_words(day, offer["locale"])


@register.filter
def share(value: Decimal | None) -> str:
    """A share of one as a percentage with one decimal."""
    return "—" if value is None else f"{value * 100:.1f} %"


@register.filter
def plain(value: Decimal | None) -> str:
    """A number without idle zeros."""
    return "" if value is None else f"{value.normalize():f}"


@register.simple_tag
def amount(value: Decimal | None, unit: str, system: str) -> str:
    """A quantity with its unit, as the site's people write it: 82 ft and not 25 m, 2 rolls."""
    if value is None:
        return "—"
    if system == "us" and unit in _IN_FEET:
        factor, name = _IN_FEET[unit]
        return f"{plain(round_money(value * factor, 1))} {name}"
    if unit in _COUNTED and value != 1:
        return f"{plain(value)} {unit}s"
    return f"{plain(value)} {_SIGNS.get(unit, unit)}"


@register.filter
def signs(measure: str) -> str:
    """A measure such as m2/h with its sign: m²/h."""
    return measure.replace("m2", "m²").replace("m3", "m³")


@register.simple_tag(takes_context=True)
def price_words(context: Any, finding: PriceFinding) -> str:
    """The sentence of a finding, its amount in the company's currency."""
    if finding.unit != "money":
        return finding.sentence
    return finding.sentence.replace(str(finding.measured), money(context, finding.measured))


@register.filter
def status_tag(status: str) -> str:
    """The class of a status: its colour never says anything that its word does not."""
    return _TAGS[Status(status)]


@register.filter
def as_json(value: Any) -> str:
    """For a data attribute; the template escapes it."""
    return json.dumps(value)
