"""Points by chainage along a baseline and a square offset from it."""

import math
from collections.abc import Mapping

from design.report import XY
from design.survey.readings import TAPE_SIGMA_M, Offset, Placed, SurveyError, apart, length_ok, off_line

# common practice, no source: how far from square a person sets an offset by eye
SQUARE_SIGMA_DEG = 2.0
# common practice, no source: beyond this a boundary point moves heads
WEAK_OFFSET_ERROR_M = 0.30


def place_offset(reading: Offset, places: Mapping[str, XY], sigma_m: float = TAPE_SIGMA_M) -> Placed:
    """The point of an offset; chainage below zero lies behind the start of the line.

    Its likely error is sqrt(2 sigma² + (offset · error of the right angle)²).
    Raises SurveyError for an unknown end of the line or lengths that cannot be.
    """
    start, end, base_m = apart(places, reading.start, reading.end)
    length_ok(reading.offset_m, f"The offset of {reading.point}", zero=True)
    if not math.isfinite(reading.chainage_m):
        raise SurveyError(f"The chainage of {reading.point} must be a number of metres.")
    left_m = reading.offset_m if reading.side == "left" else -reading.offset_m
    at = off_line(start, end, reading.chainage_m, left_m)
    error_m = math.hypot(sigma_m * math.sqrt(2), reading.offset_m * math.radians(SQUARE_SIGMA_DEG))
    return Placed(reading.point, at, error_m, _caution(reading, base_m, error_m), "offset")


def _caution(reading: Offset, base_m: float, error_m: float) -> str:
    beyond_m = max(-reading.chainage_m, reading.chainage_m - base_m)
    if beyond_m > base_m:
        return (
            f"{reading.point} lies {beyond_m:.2f} m beyond a baseline of {base_m:.2f} m. "
            "Take a longer baseline, or two tapes."
        )
    if error_m > WEAK_OFFSET_ERROR_M:
        return (
            f"The offset to {reading.point} is {reading.offset_m:.2f} m long, unsure by {error_m:.2f} m. "
            "Measure it by two tapes instead."
        )
    return ""
