"""Buildings stop water: a head throws in straight lines and nothing falls behind a wall.

Fences and trees do not, since a plan knows no height of theirs.
"""

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from design.document import Ground, Surface
from design.geometry import XY, bounds, boxes_meet, distance_to_path, in_ring
from design.visibility import inside_point
from hydraulics.coverage_shade import NO_WALLS, UNSHADED, Walls, near_walls, shaded_by

# common practice, no source: a head drawn this far inside a wall stands at it
DRAWN_INSIDE_M = 0.1
# as far as anyone looks around
FAR_M = 1e5
FARTHEST_THROW_M = 100.0


def buildings_of(ground: Ground) -> tuple[Surface, ...]:
    return tuple(surface for surface in ground.surfaces if surface.kind == "building")


def walls_of(buildings: Sequence[Surface]) -> Walls:
    """All sides of those buildings; owners count them in their order."""
    if not buildings:
        return NO_WALLS
    sides = [
        np.hstack([np.array(surface.outline), np.roll(np.array(surface.outline), -1, axis=0)])
        for surface in buildings
    ]
    owner = np.repeat(np.arange(len(buildings), dtype=np.int16), [len(part) for part in sides])
    return Walls(np.vstack(sides).astype(float), owner)


def standing_place(at: XY, buildings: Sequence[Surface]) -> XY:
    """Where a head stands: just outside where it is drawn hardly inside a building."""
    for surface in buildings:
        depth = depth_inside_m(at, surface)
        if 0 < depth <= DRAWN_INSIDE_M:
            return inside_point([_yard(at), surface.outline], at)
    return at


def depth_inside_m(at: XY, building: Surface) -> float:
    """How far inside a building a point lies [m]; 0 outside."""
    ring = building.outline
    return distance_to_path(at, (*ring, ring[0])) if in_ring(at, ring) else 0.0


def hiding(points: Sequence[XY], buildings: Sequence[Surface]) -> list[Surface]:
    """Buildings that can lie between two of those points: those that reach into their convex hull."""
    box = bounds(points)
    near = [surface for surface in buildings if boxes_meet(box, bounds(surface.outline))]
    if not near:
        return []
    hull = shapely.convex_hull(shapely.multipoints(points))
    return [s for s in near if shapely.relate_pattern(hull, shapely.Polygon(s.outline), "T********")]


def hidden_from(at: XY, points: NDArray[np.float64], walls: Walls) -> NDArray[np.bool_]:
    """Which of the points, n by 2, a head cannot see."""
    near = near_walls(walls, at, FARTHEST_THROW_M)
    hidden: NDArray[np.bool_] = shaded_by(near, points[:, 0] - at[0], points[:, 1] - at[1]) != UNSHADED
    return hidden


def yard_around(at: XY, building: Surface) -> list[Sequence[XY]]:
    """Rings of all the ground around a head but for a building."""
    return [_yard(at), building.outline]


def _yard(at: XY) -> list[XY]:
    x, y = at
    return [(x - FAR_M, y - FAR_M), (x + FAR_M, y - FAR_M), (x + FAR_M, y + FAR_M), (x - FAR_M, y + FAR_M)]
