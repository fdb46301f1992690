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
    pairs = _untaped(adjustment) if candidates is None else list(candidates)
    promise = _Promise(adjustment, sigma_m * adjustment.scale)
    tapes = [promise.with_tape(first, second) for first, second in pairs]
    best = min(tapes, key=lambda tape: tape.after_m, default=None)
    return best if best and best.after_m < best.before_m * (1 - 1e-9) else None


class _Promise:
    """What tapes would bring to the worst point; all that they share is worked out once."""

    def __init__(self, adjustment: Adjustment, sigma_m: float) -> None:
        self.places, self.sigma_m, self.worst = adjustment.places, sigma_m, adjustment.worst
        self.covariance = adjustment.covariance
        self.columns = {one.point: 2 * number for number, one in enumerate(adjustment.points)}
        self.rows = slice(self.columns[self.worst.point], self.columns[self.worst.point] + 2)

    def with_tape(self, first: str, second: str) -> ExtraTape:
        """The likely error of the worst point with that tape as well."""
        unit = _unit(known(self.places, first), known(self.places, second))
        moving = [
            (self.columns[end], sign) for end, sign in ((first, -1), (second, 1)) if end in self.columns
        ]
        columns = [column + axis for column, _ in moving for axis in (0, 1)]
        slopes = np.array([sign * part for _, sign in moving for part in unit])
        moved = self.covariance[self.rows, columns] @ slopes
        own = slopes @ self.covariance[np.ix_(columns, columns)] @ slopes
        gain = float(moved @ moved) / (self.sigma_m**2 + float(own))
        before_m = self.worst.error_m
        after_m = math.sqrt(max(0.0, before_m**2 - gain))
        return ExtraTape(first, second, self.worst.point, before_m, after_m)


def _untaped(adjustment: Adjustment) -> list[tuple[str, str]]:
    taped = {frozenset((one.distance.first, one.distance.second)) for one in adjustment.residuals}
    pairs = itertools.combinations(adjustment.places, 2)
    return [pair for pair in pairs if frozenset(pair) not in taped]


def _unit(start: XY, end: XY) -> Array:
    apart = np.subtract(end, start)
    length = float(np.hypot(*apart))
    return apart / length if length > 1e-9 else np.zeros(2)
