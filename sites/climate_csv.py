"""A climate from a CSV file: months in rows, clear words about each row that cannot be read."""

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass

from hydraulics.errors import BadQuantity
from hydraulics.units import Quantity, unit_named
from hydraulics.watering.climate import MONTHS, MOST_ETO_MM, MOST_RAIN_MM
from sites.figures import default_unit
from sites.quantity_field import read_quantity, sentence

MAX_BYTES = 20_000
MAX_ROWS = 40
MOST_PROBLEMS = 12
HEADER = "Name the columns in the first row: month, eto_mm, rain_mm (or eto_in, rain_in)."
# column -> the words that its heading may begin with
_COLUMNS = {
    "month": ("month",),
    "eto": ("eto", "et0", "reference evapotranspiration", "evapotranspiration"),
    "rain": ("rain", "rainfall", "precipitation"),
}
MOST_MM = {"eto": MOST_ETO_MM, "rain": MOST_RAIN_MM}


class ClimateFileRefused(ValueError):
    """The file is no climate; ``problems`` are sentences that name the row."""

    def __init__(self, problems: list[str]) -> None:
        more = len(problems) - MOST_PROBLEMS
        self.problems = problems[:MOST_PROBLEMS] + ([f"And {more} more like these."] if more > 0 else [])
        super().__init__(" ".join(self.problems))


@dataclass(frozen=True)
class ClimateRow:
    """A month's figures as they were typed. ``month`` counts from 1."""

    month: int
    eto: Quantity
    rain: Quantity


@dataclass(frozen=True)
class _Column:
    place: int
    unit: str


def read_climate_csv(content: bytes, system: str) -> list[ClimateRow]:
    """Twelve rows, January first; a bare number is in the heading's unit, else in the site's.

    Raises ClimateFileRefused.
    """
    rows = list(_rows(_text(content)))
    if not rows:
        raise ClimateFileRefused(["The file is empty. " + HEADER])
    columns = _columns(rows[0][1], system)
    problems: list[str] = []
    found: dict[int, ClimateRow] = {}
    for number, cells in rows[1:]:
        try:
            row = _climate_row(cells, columns)
            if row.month in found:
                raise _BadRow(f"{MONTHS[row.month - 1]} stands in the file twice; keep one.")
            found[row.month] = row
        except _BadRow as problem:
            problems.append(f"Row {number}: {problem}")
    missing = [name for place, name in enumerate(MONTHS, 1) if place not in found]
    if missing and not problems:
        problems.append(f"{', '.join(missing)} missing; the file needs all twelve months.")
    if problems:
        raise ClimateFileRefused(problems)
    return [found[month] for month in sorted(found)]


class _BadRow(ValueError):
    pass


def _text(content: bytes) -> str:
    if len(content) > MAX_BYTES:
        raise ClimateFileRefused(
            [f"The file has {len(content):,} bytes; twelve months need far less than {MAX_BYTES:,}."]
        )
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ClimateFileRefused(["The file is not UTF-8 text; save it as CSV in UTF-8."]) from None
    if "\x00" in text:
        raise ClimateFileRefused(["The file holds a NUL character; save it as CSV text."])
    return text


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Rows that hold something, with their number in the file."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    delimiter = next((mark for mark in (";", "\t") if mark in first), ",")
    try:
        for number, cells in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter), 1):
            if number > MAX_ROWS:
                raise ClimateFileRefused([f"The file has more than {MAX_ROWS} rows; twelve months need 13."])
            if any(cell.strip() for cell in cells):
                yield number, [" ".join(cell.split()) for cell in cells]
    except csv.Error as error:
        raise ClimateFileRefused([f"The file cannot be read as CSV: {error}."]) from None


def _columns(heading: list[str], system: str) -> dict[str, _Column]:
    found: dict[str, _Column] = {}
    for place, cell in enumerate(heading):
        words = re.sub(r"[_()\[\],]", " ", cell.lower()).split()
        for name, starts in _COLUMNS.items():
            if name not in found and " ".join(words).startswith(starts):
                found[name] = _Column(place, _unit(words, system))
    if len(found) < len(_COLUMNS):
        lacking = ", ".join(name for name in _COLUMNS if name not in found)
        raise ClimateFileRefused([f"Row 1 names no column for {lacking}. {HEADER}"])
    return found


def _unit(words: list[str], system: str) -> str:
    try:
        return unit_named(words[-1], "depth")
    except BadQuantity:
        return default_unit("depth", system)


def _climate_row(cells: list[str], columns: dict[str, _Column]) -> ClimateRow:
    month = _month(_cell(cells, columns["month"]))
    eto, rain = (_figure(cells, columns[name], name, month) for name in ("eto", "rain"))
    return ClimateRow(month, eto, rain)


def _cell(cells: list[str], column: _Column) -> str:
    return cells[column.place] if column.place < len(cells) else ""


def _month(text: str) -> int:
    plain = text.lower().rstrip(".")
    if re.fullmatch(r"0?[1-9]|1[0-2]", plain):
        return int(plain)
    named = [
        place for place, name in enumerate(MONTHS, 1) if len(plain) > 2 and name.lower().startswith(plain)
    ]
    if len(named) != 1:
        raise _BadRow(f"“{text[:20]}” is no month; write 1 to 12, or a name such as April.")
    return named[0]


def _figure(cells: list[str], column: _Column, name: str, month: int) -> Quantity:
    words = f"{MONTHS[month - 1]}, {'rain' if name == 'rain' else 'reference evapotranspiration'}"
    text = _cell(cells, column)
    if not text:
        raise _BadRow(f"{words} is empty; a month without any has 0.")
    try:
        quantity = read_quantity(text[:60], "depth", column.unit)
    except BadQuantity as error:
        raise _BadRow(f"{words}: {sentence(str(error))}") from None
    if quantity.value_si > MOST_MM[name]:
        raise _BadRow(f"{words}: {too_much(quantity, name)}")
    return quantity


def too_much(quantity: Quantity, name: str) -> str:
    """What to say of a figure that no month has."""
    return (
        f"{quantity.text} is more than any month has ({MOST_MM[name]:.0f} mm). "
        "Is it a year's figure, or in another unit?"
    )
