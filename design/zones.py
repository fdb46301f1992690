"""What each zone does: its flow and how fast it waters."""

from collections.abc import Iterable, Mapping

from design.reaching import ReachingHead, area_of_head
from design.report import CaseResult, HeadResult, ZoneResult
from design.site import Site
from design.solving import Solved
from hydraulics.emitters import precipitation_mm_per_hour


def zone_results(site: Site, solved: Solved, cases: Iterable[CaseResult]) -> tuple[ZoneResult, ...]:
    """Every zone, with the flow of the first case in which it runs."""
    heads: dict[str, HeadResult] = {}
    for case in cases:
        for head in case.heads:
            heads.setdefault(head.id, head)
    served = {name: reach.share_m2 for name, reach in solved.reach.items() if reach.share_m2 > 0}
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
