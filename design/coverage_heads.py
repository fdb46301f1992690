"""A head of a plan as the coverage sees it: where it stands, how far it wets in which direction."""

from dataclasses import dataclass

import numpy as np

from design.document import Area
from design.reaching import ReachingHead, rings_of
from design.report import HeadResult
from design.shading import buildings_of, standing_place
from design.site import Site
from design.visibility import rim_by_bearing
from hydraulics.catalogue import HeadPart
from hydraulics.coverage import WettingHead

# a hair less than a cell could show
BEYOND_EDGE_M = 1e-3


@dataclass(frozen=True)
class Sprayed:
    """``is_own``: it waters that area, and does not only throw into it. ``spills``: beyond its edge too."""

    head: ReachingHead
    wets: WettingHead
    is_own: bool
    spills: bool


def spray_of(site: Site, area: Area, head: ReachingHead, result: HeadResult, is_own: bool) -> Sprayed:
    """What a head wets at the flow and throw that were solved."""
    part = site.parts.need(result.part, HeadPart)
    at = standing_place(head.at, buildings_of(site.plan.ground))
    rows = tuple((row.distance_share, row.depth) for row in part.profile_rows)
    if head.pattern != "by_bearing":
        wets = WettingHead(
            at, result.flow_lpm, result.reach_m, head.from_deg, head.sweep_deg, part.profile,
            profile_rows=rows,
        )  # fmt: skip
        return Sprayed(head, wets, is_own, spills=True)
    bearings, edge = rim_by_bearing(rings_of(area), head.at)
    edge = np.where(np.isfinite(edge), edge, 0.0)
    reaches = np.minimum(np.maximum(edge, part.min_throw_m), result.reach_m)
    wets = WettingHead(
        at, result.flow_lpm, result.reach_m, profile=part.profile, profile_rows=rows,
        reaches_m=tuple(reaches.tolist()), bearings_deg=tuple(bearings.tolist()),
    )  # fmt: skip
    return Sprayed(head, wets, is_own, spills=bool((reaches > edge + BEYOND_EDGE_M).any()))
