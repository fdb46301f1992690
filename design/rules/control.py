"""Rules on control cables and what they connect."""

from collections.abc import Iterator

from design.control import Feed, controllers, feeds
from design.report import CableResult
from design.rules.finding import Measure, finding, listed, rule
from design.site import Site
from design.trenches import is_in_building, named
from hydraulics.findings import Finding, Severity
from hydraulics.rules import CableRun, cable_length

STOP, WARN, NOTE = Severity.STOP, Severity.WARN, Severity.NOTE
OWN_TRENCH = rule("cable.trench.own", (NOTE,), "A cable that needs a trench of its own", "0", "m")
NO_TRENCH = rule("cable.trench.none", (WARN,), "Two devices that no trench connects", "0", "m")
IN_BUILDING = rule("cable.in_building", (NOTE, WARN), "A cable that passes inside a building", "0", "m")
NO_CONTROLLER = rule(
    "control.controller.missing",
    (WARN,),
    "Zones, and no controller that opens them",
    "1 controller",
    "controllers",
)
NO_CABLE = rule(
    "control.cable.missing", (WARN,), "A zone that no cable connects to a controller", "0 zones", "zones"
)


def control_findings(site: Site) -> Iterator[Finding]:
    """All findings on cables, and on zones that nothing opens."""
    runs = [CableRun(cable.id, cable.part, cable.length_m, cable.limit_m) for cable in site.cables]
    yield from cable_length(runs, site.limits)
    for cable in site.cables:
        if cable.id in site.runs.straight:
            sentence = (
                f"No trench connects {cable.from_id} and {cable.to_id}: {cable.id} has its own, "
                f"{cable.trench_m:.1f} m straight; draw its way."
            )
            yield finding(NO_TRENCH, WARN, Measure(cable.trench_m, 0, (cable.id,), cable.path[0]), sentence)
        elif cable.id in site.runs.legs_m:
            leg = site.runs.legs_m[cable.id]
            sentence = f"{cable.id} needs {leg:.1f} m of trench of its own to reach the common one."
            yield finding(OWN_TRENCH, NOTE, Measure(leg, 0, (cable.id,), cable.path[0]), sentence)
    yield from _building_findings(site)
    yield from _feed_findings(site, feeds(site))


def _building_findings(site: Site) -> Iterator[Finding]:
    by_cable: dict[str, CableResult] = {cable.id: cable for cable in site.cables}
    for name, cable in by_cable.items():
        inside = [dig for dig in site.digs if name in dig.cables and is_in_building(dig)]
        length = sum(dig.length_m for dig in inside)
        if length <= 0.05:
            continue
        region = next(region for region in inside[0].inside if region.kind == "building")
        ends = {cable.path[0], cable.path[-1]}
        starts_there = any(point in ends for dig in inside for point in (dig.start, dig.end))
        sentence = f"{name} runs {length:.1f} m inside {named(region)}: " + (
            "lay it there in conduit, no trench is counted."
            if starts_there
            else "it passes through; draw it around."
        )
        severity = NOTE if starts_there else WARN
        yield finding(
            IN_BUILDING, severity, Measure(length, 0, (name, region.id), inside[0].middle), sentence
        )


def _feed_findings(site: Site, fed: dict[str, Feed]) -> Iterator[Finding]:
    zones = [zone.id for zone in site.topology.zones.values() if zone.heads]
    if not zones:
        return
    if not controllers(site):
        sentence = f"The plan has {len(zones)} zones and no controller: add one."
        yield finding(NO_CONTROLLER, WARN, Measure(0, 1, tuple(zones)), sentence)
        return
    lost = [zone for zone in zones if zone not in fed]
    if lost:
        sentence = f"No cable connects {listed(lost)} to a controller: draw it."
        yield finding(NO_CABLE, WARN, Measure(len(lost), 0, tuple(lost)), sentence)
