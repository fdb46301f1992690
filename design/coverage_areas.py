"""How well each area is watered: all its heads laid over a grid, zones run for equal times."""

from collections.abc import Iterable

import numpy as np

from design.document import Area
from design.reaching import ReachingHead, area_of_head, rings_of
from design.report import AreaResult, CaseResult, HeadResult
from design.site import Site
from design.solving import Solved
from design.visibility import throw_by_bearing
from hydraulics.catalogue import HeadPart
from hydraulics.coverage import Wetting, WettingHead, wetting
from hydraulics.emitters import precipitation_mm_per_hour
from hydraulics.findings import Finding
from hydraulics.rules import AreaWetting, area_wetting

# a throw that varies with bearing is laid out at each degree
BEARINGS_DEG = tuple(range(360))


def cover_areas(
    site: Site, solved: Solved, cases: Iterable[CaseResult]
) -> tuple[tuple[AreaResult, ...], list[Finding]]:
    """Results for every area that some head waters, and what the rules say of them."""
    heads: dict[str, HeadResult] = {}
    for case in cases:
        for head in case.heads:
            heads.setdefault(head.id, head)
    results, findings = [], []
    for area in site.plan.ground.areas:
        result, found = _cover(site, solved, area, heads)
        if result is not None:
            results.append(result)
            findings += found
    return tuple(results), findings


def _cover(
    site: Site, solved: Solved, area: Area, heads: dict[str, HeadResult]
) -> tuple[AreaResult | None, list[Finding]]:
    drips = [name for name in site.drips if site.heads[name].area == area.id and name in heads]
    laid = [
        _wetting_head(site, area, solved.reaching[name], head)
        for name, head in heads.items()
        if name in solved.reaching and _waters(solved.reaching[name], area, site)
    ]
    if drips:
        return _drip_result(site, area, [heads[name] for name in drips]), []
    if not laid:
        return None, []
    wet = wetting(rings_of(area), laid, site.limits.coverage_grid_m)
    even = wet.uniformity()
    result = AreaResult(
        id=area.id,
        label=area.label,
        area_m2=wet.area_m2,
        watered_m2=wet.reached_m2(),
        twice_m2=wet.reached_m2(2),
        mean_mm_per_hour=wet.mean_mm_per_hour,
        cu_pct=even.cu_pct,
        dulq_pct=even.dulq_pct,
        scheduling_coefficient=even.scheduling_coefficient,
    )
    overlaps = not any(head.reaches_m for head in laid) and len(laid) > 1
    return result, area_wetting(_judged(area, wet, result, overlaps))


def _judged(area: Area, wet: Wetting, result: AreaResult, overlaps: bool) -> AreaWetting:
    """``overlaps``: whether heads reach each other by design, so that one alone is a flaw."""
    dry = wet.centres[wet.heads_seen == 0]
    once_pct = 100 * (result.watered_m2 - result.twice_m2) / result.area_m2
    return AreaWetting(
        id=area.id,
        area_m2=result.area_m2,
        dry_m2=result.area_m2 - result.watered_m2,
        dry_spot_m2=wet.dry_spot_m2,
        once_pct=once_pct if overlaps else None,
        dulq_pct=result.dulq_pct,
        at=(float(dry[0, 0]), float(dry[0, 1])) if len(dry) else None,
    )


def _waters(head: ReachingHead, area: Area, site: Site) -> bool:
    """A head of one throw wets whatever lies in reach; one that looks around its own area only."""
    if head.throw_m <= 0:
        return False
    return head.pattern != "by_bearing" or area_of_head(head, site.plan.ground.areas) is area


def _wetting_head(site: Site, area: Area, head: ReachingHead, result: HeadResult) -> WettingHead:
    part = site.parts.need(result.part, HeadPart)
    reaches: tuple[float, ...] = ()
    if head.pattern == "by_bearing":
        edge = throw_by_bearing(rings_of(area), head.at, BEARINGS_DEG)
        edge = np.where(np.isfinite(edge), edge, 0.0)
        reaches = tuple(np.minimum(np.maximum(edge, part.min_throw_m), result.reach_m).tolist())
    return WettingHead(
        head.at, result.flow_lpm, result.reach_m, head.from_deg, head.sweep_deg, part.profile, reaches
    )


def _drip_result(site: Site, area: Area, inlets: list[HeadResult]) -> AreaResult:
    """A drip area takes its water evenly; one row lies beside the next."""
    size = site.area_m2[area.id]
    flow = sum(inlet.flow_lpm for inlet in inlets)
    return AreaResult(
        area.id, area.label, size, size, 0.0, precipitation_mm_per_hour(flow, size), None, None, None
    )
