"""Where the water goes that heads throw beyond the areas: by surface, in litres per minute."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from hydraulics.coverage import grid_axes
from hydraulics.coverage_head import Floats, WettingHead, lay
from hydraulics.coverage_shade import NO_WALLS, Walls

NOWHERE = ""  # the name of ground that nothing is drawn on


@dataclass(frozen=True)
class Ground:
    """What lies around: ``meant`` is watered on purpose; of ``regions`` the first that holds a place counts.

    ``buildings`` are the names that the owners of the walls stand for.
    """

    meant: shapely.Geometry
    regions: Mapping[str, shapely.Geometry]
    walls: Walls = NO_WALLS
    buildings: tuple[str, ...] = ()


def water_beyond(heads: Sequence[WettingHead], ground: Ground, grid_m: float = 0.25) -> dict[str, float]:
    """L/min by name of region for all that lands where it is not meant to.

    What a wall keeps back runs down that wall, so its building gets it.
    """
    throwing = [head for head in heads if head.farthest_m > 0]
    if not throwing:
        return {}
    grid_m, xs, ys = grid_axes(_around(throwing), grid_m)
    depth = np.zeros((len(ys), len(xs)))
    found: dict[str, float] = {}
    to_lpm = grid_m**2 / 60.0
    for head in throwing:
        laid = lay(head, xs, ys, ground.walls)
        if laid is None:
            continue
        falls = laid.mm_per_hour
        if laid.hidden_by is not None:
            for owner in np.unique(laid.hidden_by[laid.wet & (laid.hidden_by >= 0)]).tolist():
                kept = float(falls[laid.hidden_by == owner].sum()) * to_lpm
                _add(found, ground.buildings[owner], kept)
            falls = np.where(laid.hidden_by >= 0, 0.0, falls)
        depth[laid.rows, laid.columns] += falls
    for name, fallen in _by_region(depth, xs, ys, ground).items():
        _add(found, name, fallen * to_lpm)
    return found


def _around(heads: Sequence[WettingHead]) -> tuple[float, float, float, float]:
    at = np.array([head.at for head in heads])
    far = np.array([head.farthest_m for head in heads])[:, None]
    return (*(at - far).min(axis=0).tolist(), *(at + far).max(axis=0).tolist())


def _by_region(depth: Floats, xs: Floats, ys: Floats, ground: Ground) -> dict[str, float]:
    """Sum of mm/h over the cells of each region, none of them counted twice."""
    rows, columns = np.nonzero(depth)
    x, y, falls = xs[columns], ys[rows], depth[rows, columns]
    left = ~_holds(ground.meant, x, y)
    found = {}
    for name, shape in ground.regions.items():
        x, y, falls = x[left], y[left], falls[left]
        inside = _holds(shape, x, y)
        found[name] = float(falls[inside].sum())
        left = ~inside
    found[NOWHERE] = float(falls[left].sum())
    return found


def _holds(shape: shapely.Geometry, x: Floats, y: Floats) -> NDArray[np.bool_]:
    shapely.prepare(shape)
    inside: NDArray[np.bool_] = shapely.contains_xy(shape, x, y)
    return inside


def _add(found: dict[str, float], name: str, lpm: float) -> None:
    if lpm > 0:
        found[name] = found.get(name, 0.0) + lpm
