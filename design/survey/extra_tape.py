"""Which single further tape would help the worst point most."""

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from design.report import XY
from design.survey.adjust import Adjustment, Array
from design.survey.readings import TAPE_SIGMA_M, known, length_ok


@dataclass(frozen=True)
class ExtraTape:
    """A tape from ``first`` to ``second`` would take the likely error of ``point`` down to ``after_m``."""

    first: str
    second: str
    point: str
    before_m: float
    after_m: float

    @property
    def sentence(self) -> str:
        return (
            f"Tape {self.first} to {self.second}: the likely error of {self.point} falls from "
            f"{self.before_m:.2f} m to {self.after_m:.2f} m."
        )


def best_extra_tape(
    adjustment: Adjustment,
    candidates: Iterable[tuple[str, str]] | None = None,
    sigma_m: float = TAPE_SIGMA_M,
) -> ExtraTape | None:
    """The candidate after which the worst point's likely error is least; none if no tape helps.

    Without ``candidates`` all pairs that nobody taped are tried. A distance with slopes a changes
    the covariance C to C − C aᵀ a C / (sigma² + a C aᵀ); its sigma is
    scaled as those of the other tapes were. Raises SurveyError for an unknown name.
    """
    length_ok(sigma_m, "The likely error of the tape")
    worst, scaled_m = adjustment.worst, sigma_m * adjustment.scale
    pairs = _untaped(adjustment) if candidates is None else list(candidates)
    tapes = [
        ExtraTape(*pair, worst.point, worst.error_m, _error_after(adjustment, worst.point, pair, scaled_m))
        for pair in pairs
    ]
    best = min(tapes, key=lambda tape: tape.after_m, default=None)
    return best if best and best.after_m < worst.error_m * (1 - 1e-9) else None


def _untaped(adjustment: Adjustment) -> list[tuple[str, str]]:
    taped = {frozenset((one.distance.first, one.distance.second)) for one in adjustment.residuals}
    pairs = itertools.combinations(adjustment.places, 2)
    return [pair for pair in pairs if frozenset(pair) not in taped]


def _error_after(adjustment: Adjustment, point: str, pair: tuple[str, str], sigma_m: float) -> float:
    """Likely error of the point with that tape as well [m]."""
    slopes = _slopes(adjustment, *pair)
    moved = adjustment.covariance @ slopes
    column = 2 * [one.point for one in adjustment.points].index(point)
    gain = moved[column : column + 2] @ moved[column : column + 2] / (sigma_m**2 + slopes @ moved)
    before = np.trace(adjustment.covariance[column : column + 2, column : column + 2])
    return math.sqrt(max(0.0, float(before - gain)))


def _slopes(adjustment: Adjustment, first: str, second: str) -> Array:
    start, end = known(adjustment.places, first), known(adjustment.places, second)
    slopes = np.zeros(len(adjustment.covariance))
    unit = _unit(start, end)
    for column, point in enumerate(adjustment.points):
        sign = (point.point == second) - (point.point == first)
        slopes[2 * column : 2 * column + 2] += sign * unit
    return slopes


def _unit(start: XY, end: XY) -> Array:
    apart = np.subtract(end, start)
    length = float(np.hypot(*apart))
    return apart / length if length > 1e-9 else np.zeros(2)
