"""Heads of one throw share an area: each point is served by the head that reaches it best.

Best is the least distance over throw among the heads whose arc faces the point and that no
building hides from it. Looked at are points of a lattice, points along the edges, and all corners.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from design.document import Area
from design.geometry import XY, bounds, edges
from design.reaching import Reach, ReachingHead, rings_of
from design.shading import hidden_from
from hydraulics.coverage_head import BESIDE_ARC_M
from hydraulics.coverage_shade import NO_WALLS, Walls

SAMPLE_M = 0.5
MOST_POINTS = 1_600
# two heads whose distance over throw differs by less reach a point equally well
SAME_RATIO = 1e-4


@dataclass(frozen=True)
class Samples:
    """Points of an area and the part of it that each stands for [m2]; n by 2, and n."""

    points: NDArray[np.float64]
    weight_m2: NDArray[np.float64]


def fixed_reaches(heads: Sequence[ReachingHead], area: Area, walls: Walls = NO_WALLS) -> dict[str, Reach]:
    """Farthest point that each head serves best, and how much of the area it serves."""
    if not heads:
        return {}
    samples = sample_area(area)
    distance, faced = distances(heads, samples.points)
    if len(walls.sides):
        faced = faced & ~np.column_stack([hidden_from(head.at, samples.points, walls) for head in heads])
    throw = np.array([max(head.throw_m, 1e-6) for head in heads], dtype=np.float32)
    ratio = np.where(faced, distance / throw, np.inf)
    least = ratio.min(axis=1)
    # a point halfway between two heads is one that both must reach, and each serves its half
    served = (ratio <= (least * (1 + SAME_RATIO))[:, None]) & np.isfinite(least)[:, None]
    farthest = np.where(served, distance, -1.0).argmax(axis=0)
    split = samples.weight_m2 / np.maximum(served.sum(axis=1), 1)
    share = split @ served
    found = {}
    for place, head in enumerate(heads):
        far = farthest[place]
        if served[far, place]:
            at = (float(samples.points[far, 0]), float(samples.points[far, 1]))
            found[head.id] = Reach(float(distance[far, place]), at, float(share[place]))
    return found


def distances(
    heads: Sequence[ReachingHead], points: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Distance of each point to each head [m], and whether the head's arc faces it. Points by heads."""
    at = np.array([head.at for head in heads], dtype=float)
    middle = at.mean(axis=0)  # from here the squares below stay small, and so does what they lose
    # single precision holds a garden to a hundredth of a millimetre, at half the time
    points, at = (points - middle).astype(np.float32), (at - middle).astype(np.float32)
    squared = (points**2).sum(axis=1)[:, None] + (at**2).sum(axis=1) - 2.0 * (points @ at.T)
    distance = np.sqrt(np.maximum(squared, 0.0))
    start = np.radians([head.from_deg for head in heads])
    sweep = np.array([head.sweep_deg for head in heads])
    # how far a point lies to the left of the ray on which the arc begins, and of that on which it ends
    after_start = _left_of(points, at, start) <= BESIDE_ARC_M
    before_end = _left_of(points, at, start + np.radians(sweep)) >= -BESIDE_ARC_M
    faced = np.where(sweep > 180, after_start | before_end, after_start & before_end)
    return distance, faced | (sweep >= 360)


def _left_of(
    points: NDArray[np.float64], at: NDArray[np.float64], bearing: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Distance of each point to the left of the ray from each head along its bearing [m]."""
    across = np.stack([-np.cos(bearing), np.sin(bearing)]).astype(points.dtype)
    return points @ across - np.einsum("ij,ji->i", at, across)


def sample_area(area: Area) -> Samples:
    """A lattice of 0.5 m, or coarser where an area is large, with its edges and corners."""
    x1, y1, x2, y2 = bounds(area.outline)
    step_m = max(SAMPLE_M, math.sqrt((x2 - x1) * (y2 - y1) / MOST_POINTS))
    polygon = shapely.Polygon(area.outline, area.holes)
    x, y = np.meshgrid(np.arange(x1 + step_m, x2, step_m), np.arange(y1 + step_m, y2, step_m))
    x, y = x.ravel(), y.ravel()
    shapely.prepare(polygon)
    inside = shapely.contains_xy(polygon, x, y)
    lattice = np.column_stack([x[inside], y[inside]])
    sides = [_along(*side, step_m) for ring in rings_of(area) for side in edges(ring)]
    edge = [point for side in sides for point in side]
    # of the square around it a point on a side has half inside, a corner a quarter
    part = [0.25 if place == 0 else 0.5 for side in sides for place in range(len(side))]
    weight = np.concatenate([np.ones(len(lattice)), part])
    return Samples(np.concatenate([lattice, edge]), weight * polygon.area / weight.sum())


def _along(start: XY, end: XY, step_m: float) -> list[XY]:
    """Points from the start on, not farther apart than the step; the end belongs to the next side."""
    count = max(1, math.ceil(math.dist(start, end) / step_m - 1e-9))
    dx, dy = (end[0] - start[0]) / count, (end[1] - start[1]) / count
    return [(start[0] + place * dx, start[1] + place * dy) for place in range(count)]
