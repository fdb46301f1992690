"""What each zone does: its flow and how fast it waters."""

from collections.abc import Iterable, Mapping

from design.geometry import ring_area
from design.reach import ReachingHead, area_of_head, heads_by_area, rings_of, shares_m2
from design.report import CaseResult, HeadResult, ZoneResult
from design.site import Site
from design.solving import Solved
from design.visibility import visible_polygon
from hydraulics.emitters import precipitation_mm_per_hour


def zone_results(site: Site, solved: Solved, cases: Iterable[CaseResult]) -> tuple[ZoneResult, ...]:
    """Every zone, with the flow of the first case in which it runs."""
    heads: dict[str, HeadResult] = {}
    for case in cases:
        for head in case.heads:
            heads.setdefault(head.id, head)
    served = served_m2(site, solved)
    return tuple(
        ZoneResult(
            id=zone.id,
            label=zone.label,
            heads=zone.heads,
            pipes=zone.pipes,
            areas=_areas(site, solved, zone.heads),
            flow_lpm=sum(heads[head].flow_lpm for head in zone.heads if head in heads),
            mm_per_hour=_rate(site, [heads[head] for head in zone.heads if head in heads], served),
        )
        for zone in site.topology.zones.values()
    )


def served_m2(site: Site, solved: Solved) -> dict[str, float]:
    """The part of its area that each sprinkler's water is meant for [m2].

    Heads of one throw share an area by distance over throw; those whose throw varies with
    bearing share out evenly what they see.
    """
    found: dict[str, float] = {}
    shared = heads_by_area(list(solved.reaching.values()), site.plan.ground.areas)
    for area in site.plan.ground.areas:
        scanning = [head for head in shared[area.id] if head.pattern == "by_bearing"]
        found |= shares_m2([head for head in shared[area.id] if head.pattern != "by_bearing"], area)
        for head in scanning:
            found[head.id] = ring_area(visible_polygon(rings_of(area), head.at)) / len(scanning)
    return {name: size for name, size in found.items() if size > 0}


def _rate(site: Site, heads: list[HeadResult], served: Mapping[str, float]) -> float | None:
    drips = [site.drips[head.id] for head in heads if head.id in site.drips]
    if drips and len(drips) == len(heads):
        return sum(drip.mm_per_hour for drip in drips) / len(drips)
    known = [head for head in heads if head.id in served]
    if not known or len(known) < len(heads):
        return None
    flow = sum(head.flow_lpm for head in known)
    return precipitation_mm_per_hour(flow, sum(served[head.id] for head in known))


def _areas(site: Site, solved: Solved, heads: Iterable[str]) -> tuple[str, ...]:
    found = []
    for head in heads:
        named = site.heads[head].area
        reaching: ReachingHead | None = solved.reaching.get(head)
        if named is None and reaching is not None:
            area = area_of_head(reaching, site.plan.ground.areas)
            named = area.id if area else None
        if named is not None and named not in found:
            found.append(named)
    return tuple(found)
