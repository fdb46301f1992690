"""Rules on what a trench meets in the ground."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise

from design.document import Service
from design.geometry import XY, bounds, boxes_meet, crossing_at
from design.obstacles import Obstacle
from design.rules.finding import Measure, finding, listed, rule
from design.site import Site
from design.sleeves import duct_at
from design.trenches import Dig, is_in_building, named
from hydraulics.findings import Finding, Severity

STOP, WARN, NOTE = Severity.STOP, Severity.WARN, Severity.NOTE
BLOCKED = rule(
    "trench.blocked", (STOP, WARN), "No trench through a building, water, a keep-out, a neighbour's land "
    "or future works (with their margin)", "0; future_works_margin_m", "m",
)  # fmt: skip
GAP = rule(
    "trench.service.gap", (WARN,), "Vertical gap between trench floor and a service at their crossing",
    "service_clearance_m", "m",
)  # fmt: skip
UNKNOWN = rule(
    "trench.service.unknown_depth", (WARN,), "A service of unknown depth is crossed: dig a trial hole",
    "0 crossings", "crossings",
)  # fmt: skip
UNLOCATED = rule(
    "trench.service.unlocated", (WARN,), "The trench comes near a service that nobody has located on site",
    "0; hand_dig_margin_m", "m",
)  # fmt: skip
BORE = rule(
    "trench.bore.near_service",
    (WARN,),
    "A bore under paving comes near a service",
    "0; hand_dig_margin_m",
    "m",
)
ROOTS = rule("trench.roots", (WARN,), "The trench passes among the roots of a tree", "0", "m")
DEEPER = rule(
    "trench.future_drain.deeper", (NOTE,), "The trench goes deeper where a drain will cross",
    "depth by what lies in the trench", "m",
)  # fmt: skip
DRAIN_UNKNOWN = rule(
    "trench.future_drain.unknown_depth", (WARN,), "A future drain of unknown depth will cross", "0 crossings",
    "crossings",
)  # fmt: skip
DEEP = rule(
    "trench.deep", (WARN,), "A trench so deep that it needs protection against falling in",
    "trench_protection_m", "m", "29 CFR 1926.652(a)(1)",
)  # fmt: skip
CROSSING = rule(
    "trench.paving", (NOTE,), "The trench passes under paving: bore, with a sleeve past both edges",
    "sleeve_end_m at each end", "m",
)  # fmt: skip

INDOORS = rule("pipe.in_building", (NOTE,), "Main that runs inside the building of its supply", "0", "m")

NEVER_THROUGH = {"building", "keep_out", "water", "neighbour", "future_work"}
ADVICE = {
    "building": "lead it around the building",
    "keep_out": "lead it around",
    "water": "lead it around the water",
    "neighbour": "keep it on the customer's land",
    "future_work": "lead it around, or lay a sleeve there and agree it in writing",
}


def ground_findings(site: Site) -> Iterator[Finding]:
    """All findings on the trench."""
    yield from _blocked(site)
    yield from _near_services(site)
    yield from _crossings(site)
    yield from _deep_places(site)
    yield from _indoors(site)
    for sleeve in site.sleeves:
        found = "the sleeve that is there serves" if sleeve.existing else "bore and draw in a sleeve"
        sentence = (
            f"{sleeve.bored_m:.2f} m under {sleeve.surface} for {listed(sleeve.pipes + sleeve.cables)}: "
            f"{found}, {sleeve.sleeve_m:.2f} m long."
        )
        measure = Measure(sleeve.sleeve_m, sleeve.bored_m, (sleeve.surface, *sleeve.pipes, *sleeve.cables))
        yield finding(CROSSING, NOTE, measure, sentence)


def _inside_by(digs: list[Dig], wanted: set[str]) -> dict[str, tuple[Obstacle, list[Dig]]]:
    found: dict[str, tuple[Obstacle, list[Dig]]] = {}
    for dig in digs:
        for region in dig.inside:
            if region.kind in wanted and not region.is_service:
                found.setdefault(region.id, (region, []))[1].append(dig)
    return found


def _users(digs: list[Dig]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(user for dig in digs for user in (*dig.pipes, *dig.cables)))


def _blocked(site: Site) -> Iterator[Finding]:
    for region, digs in _inside_by(site.digs, NEVER_THROUGH).values():
        open_cut = [dig for dig in digs if not (region.kind == "building" and is_in_building(dig))]
        length = sum(dig.length_m for dig in open_cut)
        if length <= 0.05:
            continue
        in_duct = region.kind == "future_work" and all(duct_at(d, site.plan.layout.sleeves) for d in open_cut)
        users = _users(open_cut)
        margin = (
            " and its margin" if region.kind == "future_work" and site.limits.future_works_margin_m else ""
        )
        sentence = f"{length:.1f} m of trench for {listed(users)} run through {named(region)}{margin}: " + (
            "it lies in a sleeve; agree that in writing." if in_duct else f"{ADVICE[region.kind]}."
        )
        measure = Measure(length, 0, (region.id, *users), open_cut[0].middle)
        yield finding(BLOCKED, WARN if in_duct else STOP, measure, sentence)
    for region, digs in _inside_by(site.digs, {"tree"}).values():
        length = sum(dig.length_m for dig in digs)
        sentence = (
            f"{length:.1f} m of trench run among the roots of {named(region)}: dig by hand, cut no "
            f"thick root."
        )
        yield finding(ROOTS, WARN, Measure(length, 0, (region.id, *_users(digs)), digs[0].middle), sentence)


def _indoors(site: Site) -> Iterator[Finding]:
    digs = [dig for dig in site.digs if dig.pipes and is_in_building(dig)]
    length = sum(dig.length_m for dig in digs)
    if length > 0.05:
        sentence = (
            f"{length:.1f} m of {listed(_users(digs))} run inside a building: no trench is counted there; a "
            "licensed plumber lays them."
        )
        yield finding(INDOORS, NOTE, Measure(length, 0, _users(digs), digs[0].middle), sentence)


def _near_services(site: Site) -> Iterator[Finding]:
    services = {service.id: service for service in site.plan.ground.services}
    near: dict[str, list[Dig]] = defaultdict(list)
    for dig in site.digs:
        for region in dig.inside:
            if region.is_service and region.kind != "future_drain" and not is_in_building(dig):
                near[region.id].append(dig)
    for name, digs in near.items():
        service, length = services[name], sum(dig.length_m for dig in digs)
        if not service.located:
            sentence = (
                f"{length:.1f} m of trench lie within {site.limits.hand_dig_margin_m:.2f} m of "
                f"{_called(service)}, "
                "which is not located yet: have it marked before anyone digs, then dig by hand."
            )
            measure = Measure(length, 0, (name, *_users(digs)), digs[0].middle)
            yield finding(UNLOCATED, WARN, measure, sentence)
        bored = [dig for dig in digs if dig.method == "bore"]
        if bored:
            length = sum(dig.length_m for dig in bored)
            sentence = (
                f"A bore under {bored[0].surface} comes within {site.limits.hand_dig_margin_m:.2f} m of "
                f"{_called(service)}: open a trial hole and see the service before boring."
            )
            measure = Measure(length, 0, (name, bored[0].surface, *_users(bored)), bored[0].middle)
            yield finding(BORE, WARN, measure, sentence)


def _crossings(site: Site) -> Iterator[Finding]:
    for service in site.plan.ground.services:
        found = [(dig, at) for dig, at in _where_crossed(site, service) if not is_in_building(dig)]
        if not found:
            continue
        where = (service.id, *_users([dig for dig, _ in found]))
        if service.depth_m is None:
            is_future = service.kind == "future_drain"
            advice = "ask how deep it will lie" if is_future else "open a trial hole by hand at each"
            sentence = (
                f"The trench crosses {_called(service)} {len(found)} times; its depth is unknown: {advice}."
            )
            measure = Measure(len(found), 0, where, found[0][1])
            yield finding(DRAIN_UNKNOWN if is_future else UNKNOWN, WARN, measure, sentence)
        elif service.kind == "future_drain":
            yield from _deeper_findings(site, service, found)
        else:
            yield from _gap_findings(site, service, service.depth_m, found)


def _deeper_findings(site: Site, service: Service, found: list[tuple[Dig, XY]]) -> Iterator[Finding]:
    usual = {"main": site.limits.main_depth_m, "lateral": site.limits.lateral_depth_m}
    for dig, at in found:
        base = usual.get(dig.role, site.limits.cable_depth_m)
        if dig.depth_m > base:
            sentence = f"Dig {dig.depth_m:.2f} m deep where {_called(service)} will cross, and pass below it."
            measure = Measure(dig.depth_m, base, (service.id, *dig.pipes, *dig.cables), at)
            yield finding(DEEPER, NOTE, measure, sentence)


def _gap_findings(
    site: Site, service: Service, depth_m: float, found: list[tuple[Dig, XY]]
) -> Iterator[Finding]:
    clearance = site.limits.service_clearance_m
    for dig, at in found:
        gap = abs(dig.depth_m - depth_m)
        if gap < clearance - 1e-9:
            sentence = (
                f"{listed(dig.pipes + dig.cables)} cross {_called(service)} with {gap:.2f} m "
                f"between them: pass at "
                f"{depth_m + clearance:.2f} m or deeper, or above it, by hand."
            )
            measure = Measure(gap, clearance, (service.id, *dig.pipes, *dig.cables), at)
            yield finding(GAP, WARN, measure, sentence)


def _where_crossed(site: Site, service: Service) -> Iterator[tuple[Dig, XY]]:
    box = bounds(service.path)
    seen: set[XY] = set()
    for dig in site.digs:
        if not boxes_meet(box, bounds((dig.start, dig.end))):
            continue
        for a, b in pairwise(service.path):
            along = crossing_at(dig.start, dig.end, a, b)
            if along is not None:
                x = round(dig.start[0] + along * (dig.end[0] - dig.start[0]), 2)
                y = round(dig.start[1] + along * (dig.end[1] - dig.start[1]), 2)
                if (x, y) not in seen:
                    seen.add((x, y))
                    yield dig, (x, y)


def _deep_places(site: Site) -> Iterator[Finding]:
    limit = site.limits.trench_protection_m
    for stretch in site.trench:
        if stretch.depth_m >= limit:
            sentence = (
                f"Trench {stretch.id} is {stretch.depth_m:.2f} m deep: from {limit:.2f} m its sides need "
                "protection before anyone enters."
            )
            where = (*stretch.pipes, *stretch.cables)
            yield finding(DEEP, WARN, Measure(stretch.depth_m, limit, where, stretch.path[0]), sentence)


def _called(service: Service) -> str:
    depth = "" if service.depth_m is None else f" {service.depth_m:.2f} m deep"
    name = f"“{service.label}”" if service.label else f"the {service.kind.replace('_', ' ')} {service.id}"
    return name + depth
