"""How well each area is watered: all its heads laid over a grid, zones run for equal times."""

from collections.abc import Collection, Iterable, Sequence

from design.coverage_beyond import Beyond, outside_water
from design.coverage_heads import Sprayed, spray_of
from design.document import Area
from design.reaching import ReachingHead, heads_by_area, rings_of
from design.report import AreaResult, CaseResult, CheckReport, DrySpotResult, HeadResult, OutsideWater
from design.shading import buildings_of, walls_of
from design.site import Site
from design.solving import Solved
from hydraulics.catalogue import HeadPart
from hydraulics.coverage import Wetting, wetting
from hydraulics.emitters import precipitation_mm_per_hour
from hydraulics.findings import Finding
from hydraulics.rules import AreaWetting, Spot, area_wetting

# a spot smaller than this is wetted by drift, and cells of the grid along an edge make many
LEAST_SPOT_M2 = 0.25
MOST_SPOTS = 20


def cover_areas(
    site: Site, solved: Solved, cases: Iterable[CaseResult]
) -> tuple[tuple[AreaResult, ...], list[Finding]]:
    """Results for every area that some head waters, and what the rules say of them."""
    heads: dict[str, HeadResult] = {}
    for case in cases:
        for head in case.heads:
            heads.setdefault(head.id, head)
    beyond = Beyond(site)
    own = heads_by_area(list(solved.reaching.values()), site.plan.ground.areas)
    results, findings = [], []
    for area in site.plan.ground.areas:
        laid = laid_on(site, solved.reaching.values(), area, heads, _ids(own[area.id]))
        result, found = _cover(site, area, laid, heads, beyond)
        if result is not None:
            results.append(result)
            findings += found
    return tuple(results), findings


def wetting_of(site: Site, report: CheckReport) -> list[tuple[Area, Wetting]]:
    """The grid behind each area's figures, laid anew from what the report says of its heads."""
    results: dict[str, HeadResult] = {}
    for case in report.cases:
        for head in case.heads:
            results.setdefault(head.id, head)
    reaching = [
        ReachingHead(
            node.id, node.at, part.pattern, results[node.id].reach_m, node.from_deg,
            360.0 if part.pattern == "full_circle" else node.sweep_deg, node.area,
        )
        for node in site.heads.values()
        if node.id in results and isinstance(part := site.parts[node.part], HeadPart)
    ]  # fmt: skip
    own = heads_by_area(reaching, site.plan.ground.areas)
    found = []
    drip_areas = {site.heads[name].area for name in site.drips}
    for area in site.plan.ground.areas:
        own_ids = _ids(own[area.id])
        laid = laid_on(site, reaching, area, results, own_ids) if area.id not in drip_areas else []
        if laid:
            found.append((area, wet_area(site, area, laid)))
    return found


def _ids(heads: Iterable[ReachingHead]) -> set[str]:
    return {head.id for head in heads}


def _cover(
    site: Site, area: Area, laid: list[Sprayed], heads: dict[str, HeadResult], beyond: Beyond
) -> tuple[AreaResult | None, list[Finding]]:
    drips = [name for name in site.drips if site.heads[name].area == area.id and name in heads]
    if drips:
        return _drip_result(site, area, [heads[name] for name in drips]), []
    if not laid:
        return None, []
    wet = wet_area(site, area, laid)
    result = _result(area, wet, outside_water(beyond, [head for head in laid if head.is_own], site))
    overlaps = not any(head.wets.reaches_m for head in laid) and len(laid) > 1
    return result, area_wetting(_judged(area, wet, result, overlaps), site.limits)


def laid_on(
    site: Site,
    reaching: Iterable[ReachingHead],
    area: Area,
    heads: dict[str, HeadResult],
    own: Collection[str],
) -> list[Sprayed]:
    """What wets an area: its ``own`` heads, by id, and those of others that throw into it.

    A head of one throw wets whatever lies in reach; one that looks around its own area only.
    """
    found = []
    for head in reaching:
        if head.id in heads and head.throw_m > 0:
            is_own = head.id in own
            if is_own or head.pattern != "by_bearing":
                found.append(spray_of(site, area, head, heads[head.id], is_own))
    return found


def wet_area(site: Site, area: Area, laid: Sequence[Sprayed]) -> Wetting:
    """The depth on the grid of an area."""
    walls = walls_of(buildings_of(site.plan.ground))
    return wetting(rings_of(area), [head.wets for head in laid], site.limits.coverage_grid_m, walls)


def _result(area: Area, wet: Wetting, outside: tuple[OutsideWater, ...]) -> AreaResult:
    even = wet.uniformity()
    spots = [spot for spot in wet.dry_spots if spot.area_m2 >= LEAST_SPOT_M2]
    return AreaResult(
        id=area.id,
        label=area.label,
        area_m2=wet.area_m2,
        watered_m2=wet.reached_m2(),
        twice_m2=wet.reached_m2(2),
        mean_mm_per_hour=wet.mean_mm_per_hour,
        cu_pct=even.cu_pct,
        dulq_pct=even.dulq_pct,
        scheduling_coefficient=even.scheduling_coefficient,
        driest_mm_per_hour=even.driest,
        outside=outside,
        dry_spots=tuple(DrySpotResult(spot.area_m2, spot.at) for spot in spots[:MOST_SPOTS]),
    )


def _judged(area: Area, wet: Wetting, result: AreaResult, overlaps: bool) -> AreaWetting:
    """``overlaps``: whether heads reach each other by design, so that one alone is a flaw."""
    once_pct = 100 * (result.watered_m2 - result.twice_m2) / result.area_m2
    return AreaWetting(
        id=area.id,
        area_m2=result.area_m2,
        dry_m2=wet.dry_m2,
        dry_spot_m2=wet.dry_spot_m2,
        once_pct=once_pct if overlaps else None,
        dulq_pct=result.dulq_pct,
        at=wet.dry_spots[0].at if wet.dry_spots else None,
        spots=tuple(Spot(spot.area_m2, spot.at) for spot in wet.dry_spots),
    )


def _drip_result(site: Site, area: Area, inlets: list[HeadResult]) -> AreaResult:
    """A drip area takes its water evenly; one row lies beside the next."""
    size = site.area_m2[area.id]
    flow = sum(inlet.flow_lpm for inlet in inlets)
    return AreaResult(
        area.id, area.label, size, size, 0.0, precipitation_mm_per_hour(flow, size), None, None, None
    )
