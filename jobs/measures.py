"""Lengths and dates as an installer reads them, in the site's units."""

import math

from hydraulics.units import M_PER_FT, M_PER_IN, format_quantity

_QUARTERS = ("", " ¼", " ½", " ¾")


def tape_words(metres: float, units: str) -> str:
    """To the centimetre, or to the quarter inch."""
    if units != "us":
        return f"{metres:.2f} m"
    quarters = round(abs(metres) / M_PER_IN * 4)
    inches, quarter = divmod(quarters, 4)
    feet, inches = divmod(inches, 12)
    return f"{feet} ft {inches}{_QUARTERS[quarter]} in"


def run_words(metres: float, units: str) -> str:
    """Length of a trench or a cable, to a decimetre or an inch."""
    return format_quantity(metres, "length", "ft-in") if units == "us" else f"{metres:.1f} m"


def depth_words(metres: float, units: str) -> str:
    return f"{metres / M_PER_IN:.0f} in" if units == "us" else f"{metres * 100:.0f} cm"


def area_words(square_metres: float, units: str) -> str:
    return f"{square_metres / M_PER_FT**2:.0f} ft²" if units == "us" else f"{square_metres:.0f} m²"


def error_words(metres: float, units: str) -> str:
    """The likely error of a point, rounded up so that it never promises too much."""
    if not math.isfinite(metres) or metres > 1:
        return "more than 3 ft" if units == "us" else "more than 1 m"
    if units == "us":
        return f"± {math.ceil(metres / M_PER_IN)} in"
    return f"± {math.ceil(metres * 100)} cm"


def pressure_words(kpa: float, units: str) -> str:
    return format_quantity(kpa, "pressure", "psi" if units == "us" else "kPa")


def flow_words(lpm: float, units: str) -> str:
    return format_quantity(lpm, "flow", "gpm" if units == "us" else "L/min", 1)
