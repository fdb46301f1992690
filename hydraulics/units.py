"""Units at the edge: what people type, and what the package works in.

Inside, every measure is kPa, L/min, m, L, mm, s or m2; the unit is in the name. Only this
module knows other units.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from hydraulics.errors import BadQuantity

Kind = Literal["pressure", "flow", "length", "volume", "bore", "time", "area", "rate", "depth"]

# ISO 80000-3: standard acceleration of free fall 9.80665 m/s2, water at 1000 kg/m3
KPA_PER_M = 9.80665
# NIST SP 811 appendix B: 1 psi = 6.894757 kPa
KPA_PER_PSI = 6.894757
# NIST SP 811 appendix B: 1 US gal = 3.785411784 L, exact
L_PER_US_GAL = 3.785411784
# International yard and pound agreement 1959: 1 ft = 0.3048 m, exact
M_PER_FT = 0.3048
M_PER_IN = 0.0254

# unit as it is written -> factor to the working unit of its kind
FACTORS: dict[Kind, dict[str, float]] = {
    "pressure": {
        "kPa": 1.0, "bar": 100.0, "psi": KPA_PER_PSI, "m": KPA_PER_M,
        "ft": KPA_PER_M * M_PER_FT, "MPa": 1000.0, "mbar": 0.1,
    },
    "flow": {
        "L/min": 1.0, "L/s": 60.0, "m3/h": 1000.0 / 60.0, "gpm": L_PER_US_GAL,
        "L/h": 1.0 / 60.0, "gph": L_PER_US_GAL / 60.0,
    },
    "length": {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": M_PER_FT, "in": M_PER_IN, "ft-in": M_PER_FT},
    "volume": {"L": 1.0, "gal": L_PER_US_GAL, "m3": 1000.0, "mL": 0.001},
    "bore": {"mm": 1.0, "in": 25.4, "cm": 10.0},
    "time": {"s": 1.0, "min": 60.0, "h": 3600.0},
    "area": {"m2": 1.0, "ft2": M_PER_FT**2},
    "rate": {"mm/h": 1.0, "in/h": 25.4},
    "depth": {"mm": 1.0, "in": 25.4, "cm": 10.0},
}  # fmt: skip
_ALIASES: dict[str, str] = {
    "kpa": "kPa", "mpa": "MPa", "bars": "bar", "psig": "psi", "lbs": "psi", "m head": "m", "mh2o": "m",
    "mwc": "m", "ft head": "ft", "l/min": "L/min", "lpm": "L/min", "l/m": "L/min", "litres/min": "L/min",
    "l/s": "L/s", "lps": "L/s", "m³/h": "m3/h", "m3/hr": "m3/h", "cmh": "m3/h", "us gpm": "gpm",
    "gal/min": "gpm", "us gal/min": "gpm", "l/h": "L/h", "lph": "L/h", "gal/h": "gph",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "feet": "ft", "foot": "ft", "'": "ft",
    "′": "ft", "’": "ft", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in", "''": "in",
    "l": "L", "litre": "L", "litres": "L", "liter": "L", "liters": "L", "gallon": "gal",
    "gallons": "gal", "us gal": "gal", "us gallon": "gal", "us gallons": "gal", "gal us": "gal",
    "m³": "m3", "ml": "mL", "sec": "s", "secs": "s", "second": "s", "seconds": "s", "minute": "min",
    "minutes": "min", "mins": "min", "hr": "h", "hour": "h", "hours": "h", "m²": "m2", "sq m": "m2",
    "sqm": "m2", "sq ft": "ft2", "sqft": "ft2", "ft²": "ft2", "mm/hr": "mm/h", "in/hr": "in/h",
}  # fmt: skip
_DIGITS = {
    "kPa": 0, "bar": 2, "psi": 1, "m": 2, "ft": 1, "L/min": 1, "L/s": 3, "m3/h": 2, "gpm": 2, "L/h": 1,
    "mm": 1, "in": 2, "L": 1, "gal": 2, "s": 0, "m2": 1, "ft2": 0, "mm/h": 1, "in/h": 2, "cm": 1,
}  # fmt: skip
_NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d[\d.,]*|[.,]\d+)"
_FEET_INCHES = re.compile(
    rf"^([+-]?)\s*({_NUMBER})\s*(?:ft|feet|foot|['′’](?!['′’]))\s*-?\s*({_NUMBER})\s*"
    r"(?:in|inch|inches|\"|″|”|''|′′)?\.?$",
    re.IGNORECASE,
)
_DASHED = re.compile(rf"^({_NUMBER})\s*-\s*({_NUMBER})\s*ft-?in$", re.IGNORECASE)
_PLAIN = re.compile(rf"^([+-]?)\s*({_NUMBER})\s*(.*?)\.?$")
_LARGEST = 1e9


@dataclass(frozen=True)
class Quantity:
    """A measure in the working unit of its kind, beside the unit and the text it came as."""

    value_si: float
    unit: str
    text: str


def to_si(value: float, kind: Kind, unit: str) -> float:
    """Value in the working unit of its kind: kPa, L/min, m, L, mm, s, m2, mm/h; of rain mm."""
    return value * FACTORS[kind][unit_named(unit, kind)]


def from_si(value_si: float, kind: Kind, unit: str) -> float:
    return value_si / FACTORS[kind][unit_named(unit, kind)]


def unit_named(text: str, kind: Kind) -> str:
    """The unit that a person means, or BadQuantity with those that would do."""
    plain = " ".join(text.split())
    for candidate in (plain, _ALIASES.get(plain), _ALIASES.get(plain.lower()), plain.lower()):
        if candidate in FACTORS[kind]:
            return str(candidate)
    raise BadQuantity(f"“{plain}” is no unit of {kind} here; use {_choices(kind)}")


def parse_quantity(text: str, kind: Kind, default_unit: str) -> Quantity:
    """Read '4.5 bar', '65 psi', '3 ft 4 in' or a bare number in the default unit.

    Raises BadQuantity with a sentence on what to type instead.
    """
    plain = " ".join(text.split())
    if not plain:
        raise BadQuantity(f"type a {kind}, such as “{_example(kind, default_unit)}”")
    quantity = _read_feet_inches(plain, text) if kind == "length" else None
    quantity = quantity or _read_plain(plain, text, kind, default_unit)
    if abs(quantity.value_si) > _LARGEST:
        raise BadQuantity(f"“{plain}” is too large to be a {kind}")
    return quantity


def format_quantity(value_si: float, kind: Kind, unit: str, digits: int | None = None) -> str:
    """Text in that unit, such as '4.50 bar' or '3 ft 4 in'."""
    if unit == "ft-in":
        return _feet_inches(value_si)
    name = unit_named(unit, kind)
    places = _DIGITS.get(name, 2) if digits is None else digits
    return f"{from_si(value_si, kind, name):z.{places}f} {name}"


def bucket_flow_lpm(litres: float, seconds: float) -> float:
    """Flow that fills a bucket in that time. 5 US gal in 45 s is 25.2 L/min, 6.67 US gal/min."""
    if not (litres > 0 and seconds > 0):
        raise BadQuantity("a bucket test needs a volume and a time above zero")
    return 60.0 * litres / seconds


def bucket_seconds(litres: float, flow_lpm: float) -> float:
    """Seconds in which that flow fills the bucket. 5 US gal at 8 US gal/min: 37.5 s."""
    if not (litres > 0 and flow_lpm > 0):
        raise BadQuantity("a bucket time needs a volume and a flow above zero")
    return 60.0 * litres / flow_lpm


def _read_feet_inches(plain: str, text: str) -> Quantity | None:
    match = _FEET_INCHES.match(plain)
    dashed = _DASHED.match(plain)
    if match:
        sign, feet, inches = match.groups()
    elif dashed:
        sign, (feet, inches) = "", dashed.groups()
    else:
        return None
    if _number(inches) >= 12:
        raise BadQuantity(f"in “{plain}” the inches must stay below 12")
    value = _number(feet) * M_PER_FT + _number(inches) * M_PER_IN
    return Quantity(-value if sign == "-" else value, "ft-in", text)


def _read_plain(plain: str, text: str, kind: Kind, default_unit: str) -> Quantity:
    match = _PLAIN.match(plain)
    if not match:
        raise BadQuantity(f"“{plain}” is not a number; type it such as “{_example(kind, default_unit)}”")
    sign, number, unit_text = match.groups()
    if sign == "-" and kind != "length":
        raise BadQuantity(f"a {kind} cannot be negative; leave out the minus")
    unit = unit_named(unit_text, kind) if unit_text else unit_named(default_unit, kind)
    value = _number(number) * FACTORS[kind][unit]
    return Quantity(-value if sign == "-" else value, unit, text)


def _number(text: str) -> float:
    """A number with a decimal point or comma, or a fraction such as 1 1/2."""
    if "/" in text:
        return _fraction(text)
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", text):
        raise BadQuantity(
            f"“{text}” can be read two ways; write {text.replace(',', '')} or {text.replace(',', '.')}"
        )
    for grouping, decimal in ((",", "."), (".", ",")):
        pattern = rf"\d{{1,3}}(?:\{grouping}\d{{3}})+\{decimal}\d+|\d*\{decimal}?\d+|\d+\{decimal}"
        if re.fullmatch(pattern, text):
            return float(text.replace(grouping, "").replace(decimal, "."))
    raise BadQuantity(f"“{text}” is not a number; write it with one decimal point")


def _fraction(text: str) -> float:
    try:
        return float(sum(Fraction(piece) for piece in text.split()))
    except ZeroDivisionError:
        raise BadQuantity(f"“{text}” divides by zero") from None


def _feet_inches(metres: float) -> str:
    total_inches = round(abs(metres) / M_PER_IN)
    feet, inches = divmod(total_inches, 12)
    sign = "-" if metres < 0 and total_inches else ""
    return f"{sign}{feet} ft {inches} in"


def _choices(kind: Kind) -> str:
    return ", ".join(FACTORS[kind])


def _example(kind: Kind, unit: str) -> str:
    return f"4.5 {unit}" if kind != "time" else f"45 {unit}"
