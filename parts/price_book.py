"""Taking in a whole price book: suppliers, parts and prices, all of it or nothing."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any

from django.db import transaction
from django.utils.dateparse import parse_date

from design.problems import Problem
from office.audit import record
from office.company import get_company
from office.models import Person
from parts.models import Category, Part, Price, Supplier
from parts.technical import PartInvalid, dump_data, validate_data

MAX_ROWS = 20_000
MAX_PROBLEMS = 100


class PriceBookInvalid(ValueError):
    """Nothing was taken in; each problem names the row (``entity``) and the field."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems[:MAX_PROBLEMS]
        super().__init__("\n".join(str(problem) for problem in self.problems))


@dataclass(frozen=True)
class ImportCount:
    added: int
    changed: int
    prices: int


@dataclass(frozen=True)
class _PriceRow:
    code: str
    supplier: str
    price: Decimal
    pack: Decimal
    unit: str
    valid_from: date


@dataclass
class _Book:
    """What has been read so far, and what is wrong with it."""

    suppliers: dict[str, str]
    parts: dict[str, tuple[str, dict[str, Any]]]  # code -> category, data
    prices: dict[tuple[str, str, date], _PriceRow]
    problems: list[Problem]

    def wrong(self, entity: str, field: str, sentence: str) -> None:
        self.problems.append(Problem(entity, field, sentence))


def import_price_book(book: object, by: Person | None) -> ImportCount:
    """Add what is new and bring the rest up to date. Nothing is deleted.

    ``book`` is {"suppliers": [{code, name}], "parts": [{category, data, prices: [{supplier,
    price, pack, unit, valid_from}]}]}. Raises PriceBookInvalid.
    """
    read = _read(book)
    if read.problems:
        raise PriceBookInvalid(read.problems)
    with transaction.atomic():
        suppliers = _save_suppliers(read.suppliers)
        added, changed = _save_parts(read.parts)
        prices = _save_prices(read.prices, suppliers)
        count = ImportCount(added, changed, prices)
        record(by=by, verb="price_book.imported", subject=get_company(), detail=count.__dict__)
    return count


def read_parts(book: object) -> list[dict[str, Any]]:
    """The technical data in a price book, for use without the database. Raises PriceBookInvalid."""
    read = _read(book)
    if read.problems:
        raise PriceBookInvalid(read.problems)
    return [data for _, data in read.parts.values()]


def _read(book: object) -> _Book:
    read = _Book({}, {}, {}, [])
    if not isinstance(book, Mapping):
        read.wrong("price book", "", "A price book is one JSON object, in braces.")
        return read
    for place, row in enumerate(_rows(read, book, "suppliers")):
        _read_supplier(read, f"suppliers, row {place + 1}", row)
    for place, row in enumerate(_rows(read, book, "parts")):
        _read_part(read, f"parts, row {place + 1}", row)
    return read


def _rows(read: _Book, block: Mapping[str, Any], name: str, entity: str = "price book") -> list[Any]:
    rows = block.get(name, [])
    if not isinstance(rows, list):
        read.wrong(entity, name, "This must be a list, in square brackets.")
        return []
    if len(rows) > MAX_ROWS:
        read.wrong(entity, name, f"This list has {len(rows)} rows; at most {MAX_ROWS} are taken.")
        return []
    return rows


def _read_supplier(read: _Book, entity: str, row: object) -> None:
    if not isinstance(row, Mapping):
        return read.wrong(entity, "", "This must be an object with a code and a name.")
    code, name = row.get("code"), row.get("name")
    if not (
        isinstance(code, str) and 0 < len(code) <= 40 and code.replace("-", "").replace("_", "").isalnum()
    ):
        return read.wrong(entity, "code", "Give a code of at most 40 letters, digits and dashes.")
    if not (isinstance(name, str) and 0 < len(name.strip()) <= 120 and "\x00" not in name):
        return read.wrong(entity, "name", "Give a name of at most 120 characters.")
    if code in read.suppliers:
        return read.wrong(entity, "code", f"The supplier “{code}” stands here twice.")
    read.suppliers[code] = name.strip()
    return None


def _read_part(read: _Book, entity: str, row: object) -> None:
    if not isinstance(row, Mapping):
        return read.wrong(entity, "", "This must be an object with category, data and prices.")
    if row.get("category") not in Category.values:
        read.wrong(entity, "category", f"Use one of: {', '.join(Category.values)}.")
    try:
        part = validate_data(row.get("data"))
    except PartInvalid as error:
        code = row["data"].get("code") if isinstance(row.get("data"), Mapping) else None
        for problem in error.problems:
            field = problem.field if problem.entity == "part" else f"{problem.entity}.{problem.field}"
            read.wrong(f"{entity} ({code})" if isinstance(code, str) else entity, field, problem.sentence)
        return None
    entity = f"{entity} ({part.code})"
    if part.code in read.parts:
        return read.wrong(entity, "code", f"The part “{part.code}” stands here twice.")
    read.parts[part.code] = (str(row.get("category")), dump_data(part))
    for place, price_row in enumerate(_rows(read, row, "prices", entity)):
        _read_price(read, f"{entity}, price {place + 1}", part.code, price_row)
    return None


def _read_price(read: _Book, entity: str, code: str, row: object) -> None:
    if not isinstance(row, Mapping):
        return read.wrong(entity, "", "This must be an object with supplier, price, pack, unit, valid_from.")
    before = len(read.problems)
    supplier = row.get("supplier")
    if not (isinstance(supplier, str) and supplier in read.suppliers):
        read.wrong(entity, "supplier", f"There is no supplier “{supplier}” in this price book.")
    price = _decimal(read, entity, "price", row.get("price"), least=Decimal(0), places=4)
    pack = _decimal(read, entity, "pack", _measure(row.get("pack", 1)), least=Decimal("0.001"), places=3)
    unit = row.get("unit", "each")
    if not (isinstance(unit, str) and 0 < len(unit) <= 10 and unit.isprintable()):
        read.wrong(entity, "unit", "Give the unit in at most 10 characters, such as each, m or coil.")
    day = _day(row.get("valid_from"))
    if day is None:
        read.wrong(entity, "valid_from", "Give the first day of this price as YYYY-MM-DD.")
    if len(read.problems) > before or day is None or price is None or pack is None:
        return None
    key = (code, str(supplier), day)
    if key in read.prices:
        return read.wrong(entity, "valid_from", f"“{supplier}” has two prices from {day}; keep one.")
    read.prices[key] = _PriceRow(code, str(supplier), price, pack, str(unit), day)
    return None


def _day(value: object) -> date | None:
    try:
        return parse_date(value) if isinstance(value, str) else None
    except ValueError:
        return None


def _measure(value: object) -> object:
    """A pack is a measure, not money, and may be a JSON fraction: its shortest text is what was typed."""
    return repr(value) if isinstance(value, float) else value


def _decimal(
    read: _Book, entity: str, field: str, value: object, *, least: Decimal, places: int
) -> Decimal | None:
    """An exact number: prices come as text or whole numbers, never as binary fractions."""
    sentence = f'Give {field} as a number of at least {least}, in quotes such as "8.42".'
    if isinstance(value, bool) or not isinstance(value, str | int) or len(str(value)) > 20:
        read.wrong(entity, field, sentence)
        return None
    try:
        number = Decimal(value)
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or not least <= number < 10_000_000:
        read.wrong(entity, field, sentence)
        return None
    if number != round(number, places):
        read.wrong(entity, field, f"At most {places} decimal places are kept.")
        return None
    return number


def _save_suppliers(names: dict[str, str]) -> dict[str, Supplier]:
    for code, name in names.items():
        Supplier.objects.update_or_create(code=code, defaults={"name": name})
    return {supplier.code: supplier for supplier in Supplier.objects.filter(code__in=names)}


def _save_parts(parts: dict[str, tuple[str, dict[str, Any]]]) -> tuple[int, int]:
    stored = {part.code: part for part in Part.objects.select_for_update().filter(code__in=parts)}
    new, changed = [], 0
    for code, (category, data) in parts.items():
        fields = {"label": data["label"], "kind": data["kind"], "category": category, "data": data}
        if code not in stored:
            new.append(Part(code=code, **fields))
            continue
        part = stored[code]
        if any(getattr(part, name) != value for name, value in fields.items()):
            for name, value in fields.items():
                setattr(part, name, value)
            part.version += 1
            part.save()
            changed += 1
    Part.objects.bulk_create(new, batch_size=200)
    return len(new), changed


def _save_prices(rows: dict[tuple[str, str, date], _PriceRow], suppliers: dict[str, Supplier]) -> int:
    """A price of the same day and supplier is corrected; every other one is added."""
    parts = {part.code: part for part in Part.objects.filter(code__in={row.code for row in rows.values()})}
    made = [
        Price(
            part=parts[row.code],
            supplier=suppliers[row.supplier],
            price=row.price,
            pack=row.pack,
            unit=row.unit,
            valid_from=row.valid_from,
        )
        for row in rows.values()
    ]
    Price.objects.bulk_create(
        made,
        batch_size=150,
        update_conflicts=True,
        unique_fields=["part", "supplier", "valid_from"],
        update_fields=["price", "pack", "unit"],
    )
    return len(made)
