"""Water that lands where it should not, as a share of what a head wets."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from design.document import Ground, Surface
from design.geometry import XY
from design.reach import ReachingHead

WATCHED = ("building", "neighbour", "paving")
# A circle of this many corners holds 99.9 % of the true one.
CORNERS = 96


@dataclass(frozen=True)
class Spill:
    """Percent of a head's wet area that lands outside all areas, and on each watched surface."""

    outside_pct: float
    on_surface_pct: dict[str, float]


def sector_ring(centre: XY, radius_m: float, from_deg: float, sweep_deg: float) -> list[XY]:
    """Corners of a full circle, or of a sector with its centre, clockwise by bearing."""
    steps = max(2, math.ceil(CORNERS * sweep_deg / 360))
    angles = np.radians(from_deg + np.linspace(0, sweep_deg, steps + 1))
    ring = np.column_stack([centre[0] + radius_m * np.sin(angles), centre[1] + radius_m * np.cos(angles)])
    corners: list[XY] = [(x, y) for x, y in ring.tolist()]
    return corners[:-1] if sweep_deg >= 360 else [centre, *corners]


def spills(heads: Sequence[ReachingHead], ground: Ground) -> dict[str, Spill]:
    """Spill of every head of one throw, by head id; heads that look around wet their area only."""
    fixed = [head for head in heads if head.pattern != "by_bearing" and head.throw_m > 0]
    if not fixed:
        return {}
    rings = [sector_ring(head.at, head.throw_m, head.from_deg, head.sweep_deg) for head in fixed]
    wet = np.array([shapely.Polygon(ring) for ring in rings])
    wet_m2 = shapely.area(wet)
    meant = _meant(ground)
    shapely.prepare(meant)
    outside = np.zeros(len(fixed))
    beyond = np.flatnonzero(~shapely.contains_properly(meant, wet))
    outside[beyond] = wet_m2[beyond] - shapely.area(shapely.intersection(wet[beyond], meant))
    watched = [surface for surface in ground.surfaces if surface.kind in WATCHED]
    by_surface = {surface.id: _on_surface(surface, meant, wet) for surface in watched}
    return {
        head.id: Spill(
            _percent(outside[place], wet_m2[place]),
            {
                name: _percent(wetted[place], wet_m2[place])
                for name, wetted in by_surface.items()
                if wetted[place]
            },
        )
        for place, head in enumerate(fixed)
    }


def _meant(ground: Ground) -> shapely.Geometry:
    """All areas as one, a millimetre wider, so that an edge along an arc is no spill."""
    shapes = [shapely.Polygon(area.outline, area.holes) for area in ground.areas]
    return shapely.union_all(shapes).buffer(0.001, join_style="mitre")


def _on_surface(surface: Surface, meant: shapely.Geometry, wet: np.ndarray) -> np.ndarray:
    shape = shapely.Polygon(surface.outline).difference(meant)
    wetted = np.zeros(len(wet))
    touched = np.flatnonzero(shapely.intersects(shape, wet))
    wetted[touched] = shapely.area(shapely.intersection(wet[touched], shape))
    return wetted


def _percent(part: float, whole: float) -> float:
    return round(100 * max(0.0, float(part)) / float(whole), 3)
