"""How evenly water falls: from catch cans or from the cells of a grid."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

# common practice, no source: the share of the area that is called its driest spot
DRIEST_SHARE = 0.05


@dataclass(frozen=True)
class Uniformity:
    """Percentages; none where nothing falls.

    ``driest`` is the mean of the driest 5 % of the area; ``scheduling_coefficient`` the mean over
    it, none if that is dry. A low share that is no whole number of cans (a quarter of 5, 6 or 7)
    takes the nearest whole number of them.
    """

    mean: float
    cu_pct: float | None
    dulq_pct: float | None
    scheduling_coefficient: float | None
    driest: float | None = None


def uniformity(depths: Sequence[float] | NDArray[np.float64]) -> Uniformity:
    """CU, DUlq and scheduling coefficient of depths on equal parts of an area."""
    values = np.asarray(depths, dtype=float)
    mean = float(values.mean()) if values.size else 0.0
    if mean <= 0:
        return Uniformity(mean, None, None, None)
    driest = lowest_mean(values, DRIEST_SHARE)
    return Uniformity(
        mean,
        christiansen_pct(values),
        100 * lowest_mean(values, 0.25) / mean,
        mean / driest if driest > 1e-9 * mean else None,
        driest,
    )


def christiansen_pct(values: NDArray[np.float64]) -> float:
    """CU = 100 (1 - sum|x - mean| / (n mean)).

    *Practices of Irrigation & On-farm Water Management*, eq. 4.6.
    """
    mean = values.mean()
    return float(100 * (1 - np.abs(values - mean).sum() / (values.size * mean)))


def lowest_mean(values: NDArray[np.float64], share: float) -> float:
    """Mean of the lowest share of the values: the nearest whole number of them, at least one.

    With a quarter over the mean this is DUlq, eq. 4.7 of the same book.
    """
    count = max(int(share * values.size + 0.5), 1)
    return float(np.partition(values, count - 1)[:count].mean())


def can_mm_per_hour(caught_ml: float, minutes: float, mouth_cm2: float) -> float:
    """Rate [mm/h] from what one catch can took in that time through a mouth of that size."""
    return 10.0 * caught_ml / mouth_cm2 * 60.0 / minutes
