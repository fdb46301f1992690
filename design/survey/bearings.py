"""Bearings as they are written, and bearings from turns."""

import math
import re
from collections.abc import Iterable

from design.survey.readings import SurveyError

_QUADRANT = re.compile(
    r"([NS])\s*(\d{1,2}(?:\.\d+)?)\s*(?:°|d|\s)?\s*(?:(\d{1,2}(?:\.\d+)?)\s*['′]?)?\s*([EW])", re.IGNORECASE
)


def bearing_deg(text: str) -> float:
    """Degrees clockwise from north, of ``254.5`` or of a quadrant bearing such as ``S75°25'E``.

    Raises SurveyError for any other text.

    >>> bearing_deg("N76E"), bearing_deg("S30W"), bearing_deg("N1°42'W")
    (76.0, 210.0, 358.3)
    """
    match = _QUADRANT.fullmatch(text.strip())
    if match:
        return _from_quadrant(*match.groups(), text=text)
    try:
        value = float(text.strip().rstrip("°"))
    except ValueError:
        value = math.nan
    if not 0 <= value <= 360:
        raise SurveyError(f"“{text}” is no bearing. Write 0 to 360, or a quarter such as N76E or S75°25'E.")
    return value % 360


def bearings_from_turns(first_deg: float, turns_deg: Iterable[float]) -> list[float]:
    """The bearing of each leg: the first as given, then turned; to the right is positive."""
    bearings = [first_deg % 360]
    for turn in turns_deg:
        if not -180 <= turn <= 180:
            raise SurveyError(f"A turn lies between −180 (left) and 180 (right), not {turn:g}°.")
        bearings.append((bearings[-1] + turn) % 360)
    return bearings


def turn_misclosure_deg(turns_deg: Iterable[float]) -> float:
    """By how much all turns of a closed walk, the last one at its start included, miss a full turn [°]."""
    total = sum(turns_deg)
    return total - math.copysign(360, total)


def _from_quadrant(start: str, degrees: str, minutes: str | None, to: str, *, text: str) -> float:
    angle = float(degrees) + float(minutes or 0) / 60
    if angle > 90 or float(minutes or 0) >= 60:
        raise SurveyError(f"“{text}” is no bearing. From north or south it turns by 90° at the most.")
    if start.upper() == "N":
        return angle if to.upper() == "E" else (360 - angle) % 360
    return 180 - angle if to.upper() == "E" else 180 + angle
