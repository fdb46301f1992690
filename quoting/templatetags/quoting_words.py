"""Amounts, percents and days in templates, as the company writes them."""

import json
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django import template

from office.company import get_company
from quoting.models import Status
from quoting.money_words import date_words, money_words, percent_words

register = template.Library()
_TAGS = {
    Status.DRAFT: "note",
    Status.ISSUED: "warn",
    Status.ACCEPTED: "good",
    Status.DECLINED: "stop",
    Status.LAPSED: "stop",
    Status.SUPERSEDED: "note",
}


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


@register.filter
def status_tag(status: str) -> str:
    """The class of a status: its colour never says anything that its word does not."""
    return _TAGS[Status(status)]


@register.filter
def as_json(value: Any) -> str:
    """For a data attribute; the template escapes it."""
    return json.dumps(value)
