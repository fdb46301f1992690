"""Routes of pipes and cables cut into the smallest pieces that several of them share."""

import heapq
import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from design.geometry import GRID_M, XY, snap

PieceKey = tuple[XY, XY]
NEAR_M = 1.5 * GRID_M
ROWS_AT_ONCE = 256  # keeps the arrays of segments by points small


@dataclass
class Piece:
    """A straight piece between two points at which nothing branches off in between."""

    start: XY
    end: XY
    users: set[str] = field(default_factory=set)

    @property
    def length_m(self) -> float:
        return math.dist(self.start, self.end)


def cut_routes(routes: Mapping[str, Sequence[XY]]) -> dict[PieceKey, Piece]:
    """Pieces of all routes on a 1 mm grid; what runs on top of another is one piece.

    Each route is cut where another one begins, ends, bends on it or crosses it.
    """
    owners, starts, ends = _segments(routes)
    pieces: dict[PieceKey, Piece] = {}
    if not owners:
        return pieces
    cuts = _cut_points(np.array(starts), np.array(ends))
    for place, owner in enumerate(owners):
        for a, b in pairwise([starts[place], *cuts[place], ends[place]]):
            if a != b:
                key = (a, b) if a < b else (b, a)
                pieces.setdefault(key, Piece(*key)).users.add(owner)
    return pieces


def _segments(routes: Mapping[str, Sequence[XY]]) -> tuple[list[str], list[XY], list[XY]]:
    owners: list[str] = []
    starts: list[XY] = []
    ends: list[XY] = []
    for owner, path in routes.items():
        for a, b in pairwise([snap(point) for point in path]):
            if a != b:
                owners.append(owner)
                starts.append(a)
                ends.append(b)
    return owners, starts, ends


def _cut_points(start: NDArray[np.float64], end: NDArray[np.float64]) -> list[list[XY]]:
    """For each segment the points at which to cut it, in order from its start."""
    along = end - start
    length = np.sqrt((along**2).sum(axis=1))
    points = np.unique(np.concatenate([start, end]), axis=0)
    found: list[dict[XY, float]] = [{} for _ in length]
    for first in range(0, len(start), ROWS_AT_ONCE):
        rows = slice(first, first + ROWS_AT_ONCE)
        _add_touching(start[rows], along[rows], length[rows], points, found[rows])
        _add_crossings(first, start, along, NEAR_M / length, found)
    return [[point for point, _ in sorted(cuts.items(), key=lambda item: item[1])] for cuts in found]


def _add_touching(
    start: NDArray[np.float64],
    along: NDArray[np.float64],
    length: NDArray[np.float64],
    points: NDArray[np.float64],
    found: list[dict[XY, float]],
) -> None:
    """Cuts where another route has a vertex on the segment."""
    east, north = points[:, 0] - start[:, :1], points[:, 1] - start[:, 1:]
    share = (east * along[:, :1] + north * along[:, 1:]) / (length**2)[:, None]
    away = np.abs(east * along[:, 1:] - north * along[:, :1]) / length[:, None]
    margin = (NEAR_M / length)[:, None]
    for segment, point in np.argwhere((away < NEAR_M) & (share > margin) & (share < 1 - margin)):
        place = (float(points[point][0]), float(points[point][1]))
        found[segment][place] = float(share[segment, point])


def _add_crossings(
    first: int,
    start: NDArray[np.float64],
    along: NDArray[np.float64],
    margin: NDArray[np.float64],
    found: list[dict[XY, float]],
) -> None:
    """Cuts where two segments cross between their ends; of the rows from ``first`` on, each pair once."""
    rows = slice(first, first + ROWS_AT_ONCE)
    cross = along[rows, None, 0] * along[None, :, 1] - along[rows, None, 1] * along[None, :, 0]
    offset = start[None, :, :] - start[rows, None, :]
    with np.errstate(divide="ignore", invalid="ignore"):
        mine = (offset[..., 0] * along[None, :, 1] - offset[..., 1] * along[None, :, 0]) / cross
        other = (offset[..., 0] * along[rows, None, 1] - offset[..., 1] * along[rows, None, 0]) / cross
    inside = (np.abs(cross) > 1e-9) & (mine > margin[rows, None]) & (mine < 1 - margin[rows, None])
    inside &= (other > margin[None, :]) & (other < 1 - margin[None, :])
    for row, two in np.argwhere(inside):
        one = first + row
        if one < two:
            share = float(mine[row, two])
            x, y = start[one] + share * along[one]
            point = snap((float(x), float(y)))
            found[one][point] = share
            found[two][point] = float(other[row, two])


class RunGraph:
    """Shortest ways along pieces."""

    def __init__(self, pieces: Iterable[Piece]) -> None:
        self._next: dict[XY, list[tuple[XY, float]]] = defaultdict(list)
        for piece in pieces:
            self._next[piece.start].append((piece.end, piece.length_m))
            self._next[piece.end].append((piece.start, piece.length_m))

    def __contains__(self, point: XY) -> bool:
        return snap(point) in self._next

    def way(self, start: XY, end: XY) -> list[XY] | None:
        """Points of the shortest way between two vertices; none if there is no way."""
        start, end = snap(start), snap(end)
        best: dict[XY, float] = {start: 0.0}
        before: dict[XY, XY] = {}
        queue = [(0.0, start)]
        while queue:
            length, here = heapq.heappop(queue)
            if here == end:
                return _walk_back(before, end)
            if length > best[here]:
                continue
            for there, step in self._next.get(here, ()):
                total = length + step
                if total < best.get(there, math.inf):
                    best[there] = total
                    before[there] = here
                    heapq.heappush(queue, (total, there))
        return None


def _walk_back(before: Mapping[XY, XY], end: XY) -> list[XY]:
    way = [end]
    while way[-1] in before:
        way.append(before[way[-1]])
    return way[::-1]
