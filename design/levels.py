"""The height of the ground at a point, from the levels that were taken.

Linear inside the triangles between the levels (Delaunay), the nearest level outside them,
0 where none was taken. A node's own ``z_m`` wins over all.
"""

import math
from collections.abc import Sequence

from scipy.spatial import Delaunay, QhullError

from design.document import Level, Node
from design.geometry import XY


class Levels:
    """Heights [m] above the site's zero."""

    def __init__(self, levels: Sequence[Level]) -> None:
        self._points = [level.at for level in levels]
        self._heights = [level.z_m for level in levels]
        self._triangles = _triangles(self._points)

    def at(self, point: XY) -> float:
        """Height of the ground at a point [m]."""
        if not self._points:
            return 0.0
        if self._triangles is not None:
            inside = self._inside(point)
            if inside is not None:
                return inside
        nearest = min(range(len(self._points)), key=lambda place: math.dist(point, self._points[place]))
        return self._heights[nearest]

    def of_node(self, node: Node) -> float:
        """Height of a node [m]: its own, or that of the ground."""
        return node.z_m if node.z_m is not None else self.at(node.at)

    def _inside(self, point: XY) -> float | None:
        found = int(self._triangles.find_simplex(point))
        if found < 0:
            return None
        transform = self._triangles.transform[found]
        first, second = transform[:2].dot((point[0] - transform[2][0], point[1] - transform[2][1]))
        shares = (first, second, 1 - first - second)
        corners = self._triangles.simplices[found]
        height = sum(share * self._heights[corner] for share, corner in zip(shares, corners, strict=True))
        return float(height)


def _triangles(points: Sequence[XY]) -> Delaunay | None:
    if len(set(points)) < 3:
        return None
    try:
        return Delaunay(points)
    except QhullError:  # all in one line
        return None
