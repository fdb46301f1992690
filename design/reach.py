"""How far each head must throw: to the farthest point that it has to wet.

A head whose throw varies with bearing wets what it can see of its area; where several share
an area, each takes what is nearest to it. Heads of one throw share their area as sharing.py
has it. Distances are radii, never diameters.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

import shapely

from design.document import Area, Surface
from design.geometry import bearing_deg, in_arc, ring_area
from design.reaching import Reach, ReachingHead, heads_by_area, rings_of
from design.shading import hiding, standing_place, walls_of
from design.sharing import fixed_reaches
from design.visibility import inside_point, nearer_part, visible_polygon
from hydraulics.coverage_shade import NO_WALLS, Walls


def reaches(
    heads: Sequence[ReachingHead], areas: Sequence[Area], buildings: Sequence[Surface] = ()
) -> dict[str, Reach]:
    """How far each head must throw, by head id; heads beside no area need nothing."""
    needed = {head.id: Reach(0.0, None) for head in heads}
    shared = heads_by_area(heads, areas)
    for area in areas:
        scanning = [head for head in shared[area.id] if head.pattern == "by_bearing"]
        fixed = [head for head in shared[area.id] if head.pattern != "by_bearing"]
        for head in scanning:
            needed[head.id] = scanning_reach(head, scanning, area)
        needed |= fixed_reaches(*_seen_from(fixed, area, buildings))
    return needed


def _seen_from(
    heads: list[ReachingHead], area: Area, buildings: Sequence[Surface]
) -> tuple[list[ReachingHead], Area, Walls]:
    """The heads where they stand, with the walls that may hide part of the area from them."""
    if not buildings or not heads:
        return heads, area, NO_WALLS
    between = hiding([*area.outline, *(head.at for head in heads)], buildings)
    if not between:
        return heads, area, NO_WALLS
    return [replace(head, at=standing_place(head.at, between)) for head in heads], area, walls_of(between)


def scanning_reach(head: ReachingHead, sharing: Sequence[ReachingHead], area: Area) -> Reach:
    """The farthest visible corner of the head's share of its area."""
    share = visible_polygon(rings_of(area), head.at)
    for other in sharing:
        if other.id != head.id and share and other.at != head.at:
            share = nearer_part(share, head.at, other.at)
    seen = [p for p in share if in_arc(bearing_deg(head.at, p), head.from_deg, head.sweep_deg)]
    if not seen:
        return Reach(0.0, None)
    far = max(seen, key=lambda point: math.dist(head.at, point))
    return Reach(math.dist(head.at, far), far, ring_area(share))


def shadow_m2(heads: Sequence[ReachingHead], area: Area) -> float:
    """What none of the heads that look around can see of an area [m2]."""
    seen = [shapely.Polygon(visible_polygon(rings_of(area), head.at)).buffer(0) for head in heads]
    whole = shapely.Polygon(area.outline, area.holes)
    return float(whole.difference(shapely.union_all(seen).buffer(0.001)).area)


def nearest_edge_m(head: ReachingHead, area: Area) -> float:
    """Distance from a head to the nearest edge of its area [m]."""
    origin = inside_point(rings_of(area), head.at)
    edge = shapely.Polygon(area.outline, area.holes).boundary
    return float(edge.distance(shapely.Point(origin)))
