"""What a wall hides from a head: a head throws in straight lines, and a wall takes what meets it."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int16]
# a wall that passes this near to a head's own place is the one that it stands at
AT_WALL_M = 1e-6
UNSHADED = -1


@dataclass(frozen=True)
class Walls:
    """Sides as rows of (x1, y1, x2, y2) in metres; ``owner`` says to which building each belongs."""

    sides: Floats
    owner: Ints

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """West, south, east and north of them all."""
        x, y = self.sides[:, 0::2], self.sides[:, 1::2]
        return (float(x.min()), float(y.min()), float(x.max()), float(y.max()))

    def are_far(self, at: tuple[float, float], far_m: float) -> bool:
        """Whether none can lie within that distance."""
        west, south, east, north = self.box
        return not (west - far_m < at[0] < east + far_m and south - far_m < at[1] < north + far_m)


NO_WALLS = Walls(np.empty((0, 4)), np.empty(0, dtype=np.int16))


def near_walls(walls: Walls, at: tuple[float, float], far_m: float) -> Walls:
    """Those within reach of a head, the nearest first, in metres from the head."""
    if not len(walls.sides) or walls.are_far(at, far_m):
        return NO_WALLS
    sides = walls.sides - np.array([*at, *at])
    start, along = sides[:, :2], sides[:, 2:] - sides[:, :2]
    square = np.maximum((along**2).sum(axis=1), 1e-18)
    share = np.clip(-(start * along).sum(axis=1) / square, 0.0, 1.0)
    distance = np.hypot(*(start + share[:, None] * along).T)
    order = np.argsort(distance, kind="stable")
    order = order[distance[order] < far_m]
    return Walls(sides[order], walls.owner[order])


def shaded_by(near: Walls, east: Floats, north: Floats) -> Ints:
    """Which building hides each cell from the head, -1 for none.

    ``east`` (1 by columns) and ``north`` (rows by 1) are metres from the head, as are the walls.
    """
    hidden = np.full(np.broadcast_shapes(east.shape, north.shape), UNSHADED, dtype=np.int16)
    for (x1, y1, x2, y2), owner in zip(near.sides.tolist(), near.owner.tolist(), strict=True):
        turn = x1 * y2 - y1 * x2
        if abs(turn) <= AT_WALL_M * np.hypot(x2 - x1, y2 - y1):
            continue  # seen edge-on
        if turn < 0:
            x1, y1, x2, y2 = x2, y2, x1, y1
        between = (x1 * north - y1 * east >= 0) & (y2 * east - x2 * north >= 0)
        beyond = (x2 - x1) * (north - y1) - (y2 - y1) * (east - x1) < 0
        hidden[between & beyond & (hidden == UNSHADED)] = owner
    return hidden
