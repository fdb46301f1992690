"""What each zone does: its flow and how fast it waters."""

from collections.abc import Iterable, Mapping

from design.reach import ReachingHead, area_of_head, nearest_neighbours, rings_of
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
    """The area that each sprinkler's water is meant for [m2].

    A head of one throw serves its arc of a square as wide as the distance to its nearest
    neighbour, or as its throw if it stands alone; one whose throw varies with bearing what
    it sees of its area, shared out evenly where several stand in one.
    """
    areas = site.plan.ground.areas
    in_area = {head.id: area_of_head(head, areas) for head in solved.reaching.values()}
    found: dict[str, float] = {}
    fixed = [head for head in solved.reaching.values() if head.pattern != "by_bearing"]
    nearest = nearest_neighbours(fixed)
    for head in fixed:
        spacing = min(nearest[head.id][1], head.throw_m) if head.id in nearest else head.throw_m
        found[head.id] = spacing**2 * head.sweep_deg / 360
    scanning = [head for head in solved.reaching.values() if head.pattern == "by_bearing"]
    for head in scanning:
        area = in_area[head.id]
        if area is not None:
            sharing = sum(1 for other in scanning if in_area[other.id] is area)
            found[head.id] = _polygon_m2(visible_polygon(rings_of(area), head.at)) / sharing
    return {name: size for name, size in found.items() if size > 0}


def _polygon_m2(ring: list[tuple[float, float]]) -> float:
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs)) / 2


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
