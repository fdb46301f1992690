"""The price of one metre of each pipe: from the price book, or from a file."""

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any

from hydraulics.catalogue import Catalogue
from parts.price_book import PriceBookInvalid, read_parts
from parts.services import best_prices

PLACES = Decimal("0.0001")


class PricesInvalid(ValueError):
    """The file holds no prices that can be read; the message says where it fails."""


def metre_prices(parts: Catalogue, on: date) -> dict[str, Decimal]:
    """Best price of a metre by the code of each pipe that has one on that day."""
    codes = [part.code for part in parts.values() if part.kind == "pipe"]
    return {code: price.unit_price for code, price in best_prices(on, codes).items()}


def prices_in(document: object, on: date) -> dict[str, Decimal]:
    """The same from a price book, or from an object of price by part code such as {"pe-25": "0.89"}."""
    if not isinstance(document, Mapping):
        raise PricesInvalid("Prices are one JSON object, in braces: a price book, or price by part code.")
    if "parts" in document:
        return _from_book(document, on)
    return {code: _price(code, value) for code, value in document.items()}


def is_price_book(document: object) -> bool:
    return isinstance(document, Mapping) and "parts" in document


def _from_book(book: Mapping[str, Any], on: date) -> dict[str, Decimal]:
    try:
        read_parts(book)
    except PriceBookInvalid as error:
        raise PricesInvalid("\n".join(map(str, error.problems))) from None
    best = {}
    for row in book["parts"]:
        offers = _latest(row.get("prices", ()), on)
        if offers:
            best[row["data"]["code"]] = min(offers)
    return best


def _latest(rows: Iterable[Mapping[str, Any]], on: date) -> list[Decimal]:
    """Of each supplier the newest price per unit by that day."""
    newest: dict[str, Decimal] = {}
    for row in sorted(rows, key=lambda row: row["valid_from"]):
        if row["valid_from"] <= on.isoformat():
            newest[row["supplier"]] = Decimal(row["price"]) / Decimal(str(row.get("pack", 1)))
    return list(newest.values())


def _price(code: str, value: object) -> Decimal:
    try:
        price = Decimal(value) if isinstance(value, str | int) and not isinstance(value, bool) else None
    except InvalidOperation:
        price = None
    if price is None or not price.is_finite() or not 0 <= price < 10_000_000:
        raise PricesInvalid(f'{code}: give the price of a metre as a number in quotes, such as "0.89".')
    return price
