"""Heads as the reach sees them, and which area each of them waters."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from design.document import Area
from design.geometry import XY, bearing_deg, distance_to_rings

Pattern = Literal["fixed_arc", "full_circle", "by_bearing"]
# common practice, no source: a head on the kerb beside an area still waters that area
BESIDE_AREA_M = 0.5


@dataclass(frozen=True)
class ReachingHead:
    """``throw_m`` is a radius; ``area`` the one that the plan names for it, if it does."""

    id: str
    at: XY
    pattern: Pattern
    throw_m: float
    from_deg: float = 0.0
    sweep_deg: float = 360.0
    area: str | None = None


@dataclass(frozen=True)
class Reach:
    """Distance to the farthest point that a head must wet, and the part of its area that it serves.

    0 and none where it has nothing to wet.
    """

    needed_m: float
    at: XY | None
    share_m2: float = 0.0

    def bearing_from(self, head: XY) -> float | None:
        return bearing_deg(head, self.at) if self.at is not None and self.at != head else None


def rings_of(area: Area) -> list[Sequence[XY]]:
    """The outline of an area, then its holes."""
    return [area.outline, *area.holes]


def area_of_head(head: ReachingHead, areas: Sequence[Area]) -> Area | None:
    """The area named by the head, else the one that it stands in or right beside."""
    if head.area is not None:
        return next(area for area in areas if area.id == head.area)
    near = [(distance_to_rings(head.at, rings_of(area)), place) for place, area in enumerate(areas)]
    distance, place = min(near, default=(math.inf, 0))
    return areas[place] if distance <= BESIDE_AREA_M else None


def heads_by_area(heads: Sequence[ReachingHead], areas: Sequence[Area]) -> dict[str, list[ReachingHead]]:
    """Heads that water each area; heads beside no area are left out."""
    found: dict[str, list[ReachingHead]] = {area.id: [] for area in areas}
    for head in heads:
        area = area_of_head(head, areas)
        if area is not None:
            found[area.id].append(head)
    return found


def nearest_neighbours(heads: Sequence[ReachingHead]) -> Mapping[str, tuple[str, float]]:
    """The nearest other head of each, and its distance [m]."""
    if len(heads) < 2:
        return {}
    at = np.array([head.at for head in heads])
    apart = np.hypot(*(at[:, None, :] - at[None, :, :]).transpose(2, 0, 1))
    np.fill_diagonal(apart, np.inf)
    nearest = apart.argmin(axis=1)
    return {
        head.id: (heads[int(other)].id, float(apart[place, other]))
        for place, (head, other) in enumerate(zip(heads, nearest, strict=True))
    }
