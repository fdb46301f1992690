"""Writing to the parts book; and, gathered here for callers, reading it."""

from datetime import date
from decimal import Decimal
from typing import Any

from django.db import transaction

from design.problems import Problem
from office.audit import record
from office.models import Person
from office.versions import save_version
from parts.catalogue_cache import catalogue, catalogue_stamp
from parts.models import Part, Price, Supplier
from parts.price_book import ImportCount, PriceBookInvalid, import_price_book
from parts.prices import PriceNow, best_prices
from parts.technical import PartInvalid, dump_data, validate_data

__all__ = [
    "ImportCount",
    "PartInvalid",
    "PriceBookInvalid",
    "PriceNow",
    "add_price",
    "add_supplier",
    "best_prices",
    "catalogue",
    "catalogue_stamp",
    "create_part",
    "import_price_book",
    "update_part",
]


@transaction.atomic
def create_part(*, data: object, category: str, by: Person | None, active: bool = True) -> Part:
    """A new part; its code, label and kind are those of its data. Raises PartInvalid."""
    sheet = validate_data(data)
    if Part.objects.filter(code=sheet.code).exists():
        raise PartInvalid(
            [Problem("part", "code", f"There is a part “{sheet.code}” already; edit that one.")]
        )
    part = Part(
        code=sheet.code,
        label=sheet.label,
        kind=sheet.kind,
        category=category,
        data=dump_data(sheet),
        active=active,
    )
    part.full_clean()
    part.save()
    record(by=by, verb="part.added", subject=part)
    return part


@transaction.atomic
def update_part(
    part: Part, *, began_from: int, data: object, category: str, active: bool, by: Person | None
) -> Part:
    """Save new technical data. The code stays: plans and quotes name the part by it.

    Raises PartInvalid, or office.versions.Clash.
    """
    sheet = validate_data(data)
    if sheet.code != part.code:
        sentence = (
            f"The code must stay “{part.code}”, since plans name the part by it; add a new part instead."
        )
        raise PartInvalid([Problem("part", "code", sentence)])
    fields: dict[str, object] = {
        "label": sheet.label,
        "kind": sheet.kind,
        "category": category,
        "data": dump_data(sheet),
        "active": active,
    }
    saved = save_version(part, began_from=began_from, fields=fields)
    record(by=by, verb="part.changed", subject=saved, detail={"before": part.data})
    return saved


def add_supplier(*, code: str, name: str) -> Supplier:
    supplier = Supplier(code=code, name=name)
    supplier.full_clean()
    supplier.save()
    return supplier


@transaction.atomic
def add_price(
    *,
    part: Part,
    supplier: Supplier,
    price: Decimal,
    pack: Decimal,
    unit: str,
    valid_from: date,
    by: Person | None,
) -> Price:
    """A new dated price. Raises ValidationError where that supplier has one from that day."""
    row = Price(part=part, supplier=supplier, price=price, pack=pack, unit=unit, valid_from=valid_from)
    row.full_clean()
    row.save()
    detail: dict[str, Any] = {"supplier": supplier.code, "price": str(price), "from": str(valid_from)}
    record(by=by, verb="price.added", subject=part, detail=detail)
    return row
