"""The height of the ground at a point, from the levels that were taken.

Linear inside the triangles between the levels (Delaunay), the nearest level outside them,
0 where none was taken. A node's own ``z_m`` wins over all.
"""

import math
from collections.abc import Sequence

import shapely

from design.document import Level, Node
from design.geometry import XY

Triangle = tuple[XY, XY, XY]
# share of a triangle by which a point on its side may lie outside it
EDGE = 1e-9


class Levels:
    """Heights [m] above the site's zero."""

    def __init__(self, levels: Sequence[Level]) -> None:
        self._heights: dict[XY, float] = {level.at: level.z_m for level in levels}
        self.triangles = _triangles(list(self._heights))

    def at(self, point: XY) -> float:
        """Height of the ground at a point [m]."""
        if not self._heights:
            return 0.0
        for triangle in self.triangles:
            shares = _shares(point, triangle)
            if min(shares) >= -EDGE:
                corners = zip(shares, triangle, strict=True)
                return sum(share * self._heights[corner] for share, corner in corners)
        nearest = min(self._heights, key=lambda taken: math.dist(point, taken))
        return self._heights[nearest]

    def of_node(self, node: Node) -> float:
        """Height of a node [m]: its own, or that of the ground."""
        return node.z_m if node.z_m is not None else self.at(node.at)


def _triangles(points: list[XY]) -> list[Triangle]:
    if len(points) < 3:
        return []
    found = shapely.get_parts(shapely.delaunay_triangles(shapely.MultiPoint(points)))
    rings = [[(x, y) for x, y in shapely.get_coordinates(triangle).tolist()[:3]] for triangle in found]
    return [(a, b, c) for a, b, c in rings if abs(_twice_area(a, b, c)) > 1e-9]


def _twice_area(a: XY, b: XY, c: XY) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _shares(point: XY, triangle: Triangle) -> tuple[float, float, float]:
    """Barycentric coordinates; all between 0 and 1 for a point inside."""
    a, b, c = triangle
    whole = _twice_area(a, b, c)
    first, second = _twice_area(point, b, c) / whole, _twice_area(a, point, c) / whole
    return (first, second, 1 - first - second)
