"""Figures as people of the trade write them, in the site's units and in the other system beside."""

import re
from collections.abc import Mapping
from typing import Literal

from hydraulics.units import Kind, Quantity, format_quantity, from_si

System = Literal["metric", "us"]

# What a bare number means on a site's pages.
DEFAULT_UNITS: Mapping[str, Mapping[Kind, str]] = {
    "metric": {
        "pressure": "bar", "flow": "L/min", "length": "m", "volume": "L", "bore": "mm", "time": "s",
        "area": "m2", "rate": "mm/h", "depth": "mm",
    },
    "us": {
        "pressure": "psi", "flow": "gpm", "length": "ft", "volume": "gal", "bore": "in", "time": "s",
        "area": "ft2", "rate": "in/h", "depth": "in",
    },
}  # fmt: skip
# unit -> how it is written; a gallon is said to be a US one, since there is another
_US_UNITS = {"psi", "ft", "ft-in", "in", "gpm", "gal", "gph", "ft2", "in/h"}
_BARE = re.compile(r"[+-]?\s*[\d.,/ ]+")
WRITTEN = {"gpm": "US gal/min", "gal": "US gal", "m2": "m²", "ft2": "ft²", "m3/h": "m³/h", "m3": "m³"}


def typed_text(quantity: Quantity) -> str:
    """The figure as it was typed; a bare number gets the unit that it was read in."""
    text = " ".join(quantity.text.split())
    return f"{text} {quantity.unit}" if _BARE.fullmatch(text) and quantity.unit else text


def default_unit(kind: Kind, system: str) -> str:
    return DEFAULT_UNITS["us" if system == "us" else "metric"][kind]


def unit_written(unit: str) -> str:
    return WRITTEN.get(unit, unit)


def written(value_si: float, kind: Kind, unit: str) -> str:
    """The figure in that unit, such as '6.67 US gal/min' or '37.5 s'."""
    if kind == "time":
        return f"{from_si(value_si, kind, unit):.1f}".removesuffix(".0") + f" {unit}"
    if unit == "ft-in":
        return format_quantity(value_si, kind, unit)
    number, _, name = format_quantity(value_si, kind, unit).partition(" ")
    return f"{number} {unit_written(name)}"


def in_system(value_si: float, kind: Kind, system: str) -> str:
    """The figure in the site's units; a length in US units is in feet and inches."""
    if kind == "length" and system == "us":
        return format_quantity(value_si, "length", "ft-in")
    return written(value_si, kind, default_unit(kind, system))


def in_both(value_si: float, kind: Kind, unit: str) -> str:
    """The figure in the unit that it was typed in, and in the other system's behind it."""
    us_unit, metric_unit = default_unit(kind, "us"), default_unit(kind, "metric")
    if us_unit == metric_unit:
        return written(value_si, kind, unit)
    other = metric_unit if unit in _US_UNITS else us_unit
    return f"{written(value_si, kind, unit)} ({written(value_si, kind, other)})"
