"""How the water of a head falls off from the head to the end of its throw."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Shape = Literal["uniform", "triangular"]
Row = tuple[float, float]


def relative_depth(share: Floats, shape: Shape, rows: Sequence[Row] = ()) -> Floats | float:
    """Depth at those shares of the throw, in relation to ``sector_weight``.

    Rows are (share of the throw, relative depth), rising from 0 to 1; between them it is straight.
    """
    if rows:
        at, depth = zip(*rows, strict=True)
        return np.interp(share, at, depth)
    if shape == "triangular":
        return np.clip(1.0 - share, 0.0, 1.0)
    return 1.0


def sector_weight(shape: Shape, rows: Sequence[Row] = ()) -> float:
    """Mean of the relative depth over the whole sector: 2 times the integral of depth times share.

    1 for an even profile, 1/3 for one that falls straight to nothing (a cone in its cylinder).
    """
    if not rows:
        return 1.0 if shape == "uniform" else 1.0 / 3.0
    total = 0.0
    for (s0, d0), (s1, d1) in pairwise(rows):
        # exact for a straight piece: Simpson's rule holds for the cubic that it makes at most
        middle = (s0 + s1) / 2 * (d0 + d1) / 2
        total += (s1 - s0) * (s0 * d0 + 4 * middle + s1 * d1) / 6
    return 2.0 * total
