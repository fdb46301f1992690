"""Points by two tapes, each from a known mark.

x = (a² − b² + d²) / (2d), y = ±sqrt(a² − x²); the likely error of the point is about
sigma · sqrt(2) / sin(gamma), gamma being the angle at which the tapes meet: textbook
surveying, from memory.
"""

import math
from collections.abc import Mapping

from design.report import XY
from design.stakeout import LARGEST_ANGLE_DEG, LEAST_ANGLE_DEG
from design.survey.readings import TAPE_SIGMA_M, Placed, SurveyError, Tie, apart, length_ok, off_line

# what adding floats may cost: far below what a tape shows
_ROUNDING_M = 1e-9


class TapesDoNotMeet(SurveyError):
    """The two circles have no point in common; ``gap_m`` says by how much they miss."""

    def __init__(self, sentence: str, gap_m: float) -> None:
        self.gap_m = gap_m
        super().__init__(sentence)


def meet(first_m: float, second_m: float, base_m: float) -> XY:
    """Where two tapes meet: metres along the line from the first mark, and off it (never negative).

    Raises TapesDoNotMeet, with the gap in metres, where they cannot.

    >>> meet(13, 15, 14)
    (5.0, 12.0)
    """
    length_ok(base_m, "The distance between the marks")
    length_ok(first_m, "The first tape", zero=True)
    length_ok(second_m, "The second tape", zero=True)
    _refuse_gap(first_m, second_m, base_m)
    along_m = (first_m**2 - second_m**2 + base_m**2) / (2 * base_m)
    return along_m, math.sqrt(max(0.0, first_m**2 - along_m**2))


def meeting_angle_deg(first_m: float, second_m: float, base_m: float) -> float:
    """The angle at the point between the two tapes; 0 where the point stands on a mark."""
    if first_m == 0 or second_m == 0:
        return 0.0
    cosine = (first_m**2 + second_m**2 - base_m**2) / (2 * first_m * second_m)
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def tie_error_m(angle_deg: float, sigma_m: float = TAPE_SIGMA_M) -> float:
    """Likely error of the point [m], infinite where the tapes lie along each other."""
    sine = math.sin(math.radians(angle_deg))
    return sigma_m * math.sqrt(2) / sine if sine > 1e-6 else math.inf


def grazing_error_m(first_m: float, second_m: float, base_m: float, sigma_m: float = TAPE_SIGMA_M) -> float:
    """Likely error [m] where the tapes lie along each other: how far off the line they would still fit.

    With a surplus s of both tapes over the line, h = sqrt(2 s a b / d), s being sigma · sqrt(2).
    """
    return math.sqrt(2 * sigma_m * math.sqrt(2) * first_m * second_m / base_m)


def place_tie(tie: Tie, places: Mapping[str, XY], sigma_m: float = TAPE_SIGMA_M) -> Placed:
    """The point of a tie. Raises SurveyError for an unknown mark or tapes that do not meet."""
    first, second, base_m = apart(places, tie.first, tie.second)
    along_m, off_m = meet(tie.first_m, tie.second_m, base_m)
    at = off_line(first, second, along_m, off_m if tie.side == "left" else -off_m)
    angle_deg = meeting_angle_deg(tie.first_m, tie.second_m, base_m)
    error_m = min(
        tie_error_m(angle_deg, sigma_m), grazing_error_m(tie.first_m, tie.second_m, base_m, sigma_m)
    )
    return Placed(tie.point, at, max(error_m, sigma_m), _caution(tie, angle_deg), "ties")


def _refuse_gap(first_m: float, second_m: float, base_m: float) -> None:
    short_m = base_m - first_m - second_m
    if short_m > _ROUNDING_M:
        raise TapesDoNotMeet(
            f"The two tapes together are {short_m:.2f} m shorter than the {base_m:.2f} m between the marks. "
            "Measure both again, or the marks.",
            short_m,
        )
    long_m = abs(first_m - second_m) - base_m
    if long_m > _ROUNDING_M:
        name = "first" if first_m > second_m else "second"
        raise TapesDoNotMeet(
            f"The {name} tape is {long_m:.2f} m longer than the other tape and the {base_m:.2f} m between "
            "the marks together. Measure both again, or see whether they were swapped.",
            long_m,
        )


def _caution(tie: Tie, angle_deg: float) -> str:
    if LEAST_ANGLE_DEG <= angle_deg <= LARGEST_ANGLE_DEG:
        return ""
    return (
        f"The tapes to {tie.point} meet at {angle_deg:.0f}°, outside {LEAST_ANGLE_DEG:.0f} to "
        f"{LARGEST_ANGLE_DEG:.0f}°: unsure. Take another pair of marks or a third tape."
    )
