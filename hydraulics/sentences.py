"""Sentences of findings for people who think in US customary units.

Rules write their figures in metric units. This is the one place that reads such a sentence
and writes its figures in the other system; text without a metric figure stays as it is.
"""

import re
from typing import Literal

from hydraulics.units import FACTORS, Kind, from_si

System = Literal["metric", "us"]

# metric unit -> kind, US unit, how it is written, digits
_TURNED: dict[str, tuple[Kind, str, str, int]] = {
    "L/min": ("flow", "gpm", "US gal/min", 2),
    "L/h": ("flow", "gpm", "US gal/min", 2),
    "kPa": ("pressure", "psi", "psi", 1),
    "bar": ("pressure", "psi", "psi", 1),
    "m/s": ("length", "ft", "ft/s", 1),
    "m/h": ("length", "ft", "ft/h", 0),
    "m2/h": ("area", "ft2", "ft2/h", 0),
    "mm/h": ("rate", "in/h", "in/h", 2),
    "m2": ("area", "ft2", "ft2", 0),
    "m²": ("area", "ft2", "ft2", 0),
    "mm": ("bore", "in", "in", 2),
    "cm": ("length", "in", "in", 1),
    "m": ("length", "ft", "ft", 1),
    "L": ("volume", "gal", "US gal", 1),
}
_SI_NAME = {"m/s": "m", "m/h": "m", "m2/h": "m2", "m²": "m2"}
_FIGURE = re.compile(
    r"(?<![\w.,\-])(-?\d+(?:\.\d+)?)(\s|\u00a0)("
    + "|".join(re.escape(unit) for unit in sorted(_TURNED, key=len, reverse=True))
    + r")(?![\w/²])"
)


def in_units_of(system: System | str, sentence: str) -> str:
    """The sentence with its figures in that system's units.

    >>> in_units_of("us", "The service pipe carries 28.1 L/min at 1.5 m/s.")
    'The service pipe carries 7.42 US gal/min at 4.9 ft/s.'
    """
    return _FIGURE.sub(_turn, sentence) if system == "us" else sentence


def _turn(match: re.Match[str]) -> str:
    figure, space, unit = match.groups()
    kind, us_unit, written, digits = _TURNED[unit]
    value_si = float(figure) * FACTORS[kind][_SI_NAME.get(unit, unit)]
    return f"{from_si(value_si, kind, us_unit):z.{digits}f}{space}{written}"
