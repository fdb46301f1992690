"""Water that lands where it should not, as a share of what a head wets.

What a building hides from a head falls on that building, and nowhere behind it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from design.document import Ground
from design.reaching import ReachingHead
from design.shading import buildings_of, standing_place, yard_around
from design.visibility import visible_polygon

WATCHED = ("building", "neighbour", "fence", "paving")
# A circle of this many corners holds 99.9 % of the true one.
CORNERS = 96


@dataclass(frozen=True)
class Spill:
    """Percent of a head's wet area that lands outside all areas, and on each watched surface."""

    outside_pct: float
    on_surface_pct: dict[str, float]


def sectors(heads: Sequence[ReachingHead]) -> NDArray[np.object_]:
    """The circles and sectors that heads of one throw wet, as polygons."""
    share = np.linspace(0, 1, CORNERS + 1)
    start = np.array([head.from_deg for head in heads])[:, None]
    sweep = np.minimum([head.sweep_deg for head in heads], 360.0)[:, None]
    angles = np.radians(start + sweep * share)
    centre = np.array([head.at for head in heads], dtype=float)
    throw = np.array([head.throw_m for head in heads])[:, None]
    x, y = centre[:, :1] + throw * np.sin(angles), centre[:, 1:] + throw * np.cos(angles)
    rim = np.stack([x, y], axis=2)
    middle = np.where(sweep[:, :, None] >= 360, rim[:, :1], centre[:, None, :])
    rings = shapely.linearrings(np.concatenate([middle, rim, middle], axis=1))
    polygons: NDArray[np.object_] = shapely.polygons(rings)
    return polygons


def spills(heads: Sequence[ReachingHead], ground: Ground) -> dict[str, Spill]:
    """Spill of every head of one throw, by head id; heads that look around wet their area only."""
    fixed = [head for head in heads if head.pattern != "by_bearing" and head.throw_m > 0]
    if not fixed:
        return {}
    wet = sectors(fixed)
    meant = meant_ground(ground)
    shapely.prepare(meant)
    beyond = np.flatnonzero(~shapely.contains_properly(meant, wet))
    spilling = wet[beyond]
    wet_m2 = shapely.area(spilling)
    kept_back = _keep_back([fixed[place] for place in beyond], spilling, ground)
    outside = 100 * (1 - shapely.area(shapely.intersection(spilling, meant)) / wet_m2)
    found = {head.id: Spill(0.0, {}) for head in fixed}
    on_surface = _on_surfaces(ground, meant, spilling)
    for name, square_metres in kept_back.items():
        on_surface[name] = on_surface.get(name, 0.0) + square_metres
    for place, share in enumerate(outside.tolist()):
        shares = {
            name: round(100 * float(wetted[place] / wet_m2[place]), 3)
            for name, wetted in on_surface.items()
            if wetted[place] > 0
        }
        found[fixed[beyond[place]].id] = Spill(round(max(share, 0.0), 3), shares)
    return found


def _keep_back(
    heads: Sequence[ReachingHead], wet: NDArray[np.object_], ground: Ground
) -> dict[str, NDArray[np.float64]]:
    """By building, what it hides of each sector [m2]; ``wet`` keeps what can be seen."""
    buildings = buildings_of(ground)
    kept: dict[str, NDArray[np.float64]] = {}
    for surface in buildings:
        shape = shapely.Polygon(surface.outline)
        for place in np.flatnonzero(shapely.intersects(shape, wet)).tolist():
            at = standing_place(heads[place].at, buildings)
            seen = shapely.Polygon(visible_polygon(yard_around(at, surface), at)).buffer(0)
            before = wet[place]
            wet[place] = shapely.intersection(before, seen)
            hidden = shapely.area(before) - shapely.area(wet[place])
            kept.setdefault(surface.id, np.zeros(len(wet)))[place] = hidden
    return kept


def meant_ground(ground: Ground) -> shapely.Geometry:
    """All areas as one, a millimetre wider, so that an edge along an arc is no spill."""
    shapes = [shapely.Polygon(area.outline, area.holes) for area in ground.areas]
    return shapely.union_all(shapes).buffer(0.001, join_style="mitre")


def _on_surfaces(
    ground: Ground, meant: shapely.Geometry, wet: NDArray[np.object_]
) -> dict[str, NDArray[np.float64]]:
    """By watched surface, the part of it outside the areas that each head wets [m2]."""
    found = {}
    for surface in ground.surfaces:
        if surface.kind in WATCHED and len(wet):
            shape = shapely.Polygon(surface.outline).difference(meant)
            wetted = np.zeros(len(wet))
            touched = np.flatnonzero(shapely.intersects(shape, wet))
            wetted[touched] = shapely.area(shapely.intersection(wet[touched], shape))
            found[surface.id] = wetted
    return found
