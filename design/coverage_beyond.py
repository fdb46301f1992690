"""What the heads of an area throw beyond all areas, by surface."""

from collections.abc import Sequence
from functools import cached_property

import numpy as np
import shapely

from design.coverage_heads import Sprayed
from design.document import Surface
from design.report import OutsideWater
from design.shading import buildings_of, walls_of
from design.site import Site
from design.spill import meant_ground, sectors
from hydraulics.coverage_beyond import NOWHERE, Ground, water_beyond

# where surfaces overlap, the first kind of these counts
ORDER = ("building", "neighbour", "fence", "paving", "water", "tree", "keep_out", "future_work")
UNDRAWN = "ground"
LEAST_LPH = 0.5


class Beyond:
    """The ground around the areas, put together when first asked for."""

    def __init__(self, site: Site) -> None:
        self.surfaces = sorted(site.plan.ground.surfaces, key=lambda surface: ORDER.index(surface.kind))
        self._site = site

    @cached_property
    def ground(self) -> Ground:
        ground = self._site.plan.ground
        buildings = buildings_of(ground)
        meant = meant_ground(ground)
        shapely.prepare(meant)
        regions = {surface.id: shapely.Polygon(surface.outline) for surface in self.surfaces}
        return Ground(meant, regions, walls_of(buildings), tuple(surface.id for surface in buildings))

    @property
    def by_id(self) -> dict[str, Surface]:
        return {surface.id: surface for surface in self.surfaces}


def outside_water(beyond: Beyond, own: Sequence[Sprayed], site: Site) -> tuple[OutsideWater, ...]:
    """By surface, the most water first; while all heads of the area run."""
    given_lpm = sum(head.wets.flow_lpm for head in own)
    spilling = _spilling(beyond, own)
    if not spilling or given_lpm <= 0:
        return ()
    fallen = water_beyond([head.wets for head in spilling], beyond.ground, site.limits.coverage_grid_m)
    kinds = {name: surface.kind for name, surface in beyond.by_id.items()}
    rows = [
        OutsideWater(name, kinds.get(name, UNDRAWN), 60 * lpm, 100 * lpm / given_lpm)
        for name, lpm in fallen.items()
        if 60 * lpm >= LEAST_LPH
    ]
    return tuple(sorted(rows, key=lambda row: (-row.litres_per_hour, row.surface or NOWHERE)))


def _spilling(beyond: Beyond, own: Sequence[Sprayed]) -> list[Sprayed]:
    """Those whose water does not all fall where it is meant to."""
    fixed = [head for head in own if head.head.pattern != "by_bearing"]
    looking = [head for head in own if head.head.pattern == "by_bearing" and head.spills]
    if not fixed:
        return looking
    within = shapely.contains_properly(beyond.ground.meant, sectors([head.head for head in fixed]))
    return [*(fixed[place] for place in np.flatnonzero(~within)), *looking]
