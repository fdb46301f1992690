"""Amounts, percents and dates as the company's customers read them."""

from datetime import date
from decimal import Decimal

from babel import Locale, UnknownLocaleError
from babel.dates import format_date
from babel.numbers import format_currency, format_decimal

FALLBACK = "en_GB"


def known_locale(name: str) -> str:
    """The name itself if Babel knows it, else plain English."""
    try:
        return str(Locale.parse(name))
    except (UnknownLocaleError, ValueError, TypeError):
        return FALLBACK


def money_words(amount: Decimal | str, currency: str, locale: str) -> str:
    return format_currency(Decimal(amount), currency, locale=known_locale(locale))


def percent_words(percent: Decimal | str, locale: str) -> str:
    return f"{format_decimal(Decimal(percent), format='#,##0.##', locale=known_locale(locale))} %"


def date_words(day: date | str, locale: str) -> str:
    day = date.fromisoformat(day) if isinstance(day, str) else day
    return format_date(day, format="long", locale=known_locale(locale))
