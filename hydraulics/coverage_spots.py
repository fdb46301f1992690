"""Where the dry spots of an area lie, and how large each is."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

Floats = NDArray[np.float64]
# more than anyone would walk to
MOST_SPOTS = 50


@dataclass(frozen=True)
class DrySpot:
    """A patch of cells joined by their sides; ``at`` is its cell nearest to its middle."""

    area_m2: float
    at: tuple[float, float]


def dry_spots(dry: NDArray[np.bool_], axes: tuple[Floats, Floats], cell_m2: float) -> tuple[DrySpot, ...]:
    """The spots of a mask (rows by columns), the largest first; of more than 50 the largest 50."""
    if not dry.any():
        return ()
    labels, _ = ndimage.label(dry)
    rows, columns = np.nonzero(labels)
    of = labels[rows, columns]
    cells = np.bincount(of)
    middle_x = np.bincount(of, axes[0][columns]) / np.maximum(cells, 1)
    middle_y = np.bincount(of, axes[1][rows]) / np.maximum(cells, 1)
    found = []
    for spot in np.argsort(-cells[1:], kind="stable")[:MOST_SPOTS] + 1:
        mine = of == spot
        x, y = axes[0][columns[mine]], axes[1][rows[mine]]
        nearest = int(np.argmin((x - middle_x[spot]) ** 2 + (y - middle_y[spot]) ** 2))
        found.append(DrySpot(float(cells[spot]) * cell_m2, (float(x[nearest]), float(y[nearest]))))
    return tuple(found)
