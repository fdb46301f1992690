"""Rules on valves, zones and cases, and on where the readings were taken."""

import math
from collections.abc import Iterator

from design.document import ValveNode
from design.rules.finding import Measure, finding, listed, rule
from design.site import Site
from hydraulics.catalogue import HeadPart
from hydraulics.findings import Finding, Severity

STOP, WARN, NOTE = Severity.STOP, Severity.WARN, Severity.NOTE
# common practice, no source: readings at a tap this close are readings at the connection
SAME_PLACE_M = 0.5

NO_VALVE = rule("head.valve.missing", (STOP,), "A head on the main that no valve shuts", "0 heads", "heads")
TWO_VALVES = rule(
    "head.valve.twice", (WARN,), "A head with its own valve behind another valve", "1 valve", "valves"
)
IDLE_VALVE = rule("valve.opens.nothing", (WARN,), "A valve with no head behind it", "1 head", "heads")
NO_CASE = rule(
    "zone.case.none", (WARN,), "A zone that runs in no case, so that nothing checks it", "1 case", "cases"
)
ARC = rule(
    "head.arc.full_circle",
    (WARN,),
    "A full-circle head drawn with a smaller arc wets the full circle",
    "360°",
    "°",
)
APART = rule(
    "supply.place.apart",
    (NOTE,),
    "Readings taken at another place than the connection",
    f"{SAME_PLACE_M} m",
    "m",
)


def layout_findings(site: Site) -> Iterator[Finding]:
    """All findings on how the plan is put together."""
    topology = site.topology
    at = {name: node.at for name, node in topology.nodes.items()}
    for head in topology.loose_heads:
        sentence = f"{head} hangs on the main without a valve and would run all the time: put it behind one."
        yield finding(NO_VALVE, STOP, Measure(1, 0, (head,), at[head]), sentence)
    for zone in topology.zones.values():
        is_valve = isinstance(topology.nodes[zone.id], ValveNode)
        if not zone.heads:
            sentence = f"Valve {zone.id} opens no head: connect its zone, or remove it."
            yield finding(IDLE_VALVE, WARN, Measure(0, 1, (zone.id,), at[zone.id]), sentence)
        own = [head for head in zone.heads if is_valve and _has_own_valve(site, head)]
        if own:
            sentence = (
                f"{listed(own)} carry their own valve and lie behind {zone.id}: one of the two is too many."
            )
            yield finding(TWO_VALVES, WARN, Measure(2, 1, (zone.id, *own), at[zone.id]), sentence)
    yield from _case_findings(site)
    yield from _arc_findings(site)
    if topology.supply is not None:
        apart = math.dist(site.plan.supply.at, at[topology.supply])
        if apart > SAME_PLACE_M:
            sentence = (
                f"The readings were taken {apart:.1f} m from where the pipes begin; what lies between "
                f"is not in them."
            )
            yield finding(
                APART, NOTE, Measure(apart, SAME_PLACE_M, (topology.supply,), site.plan.supply.at), sentence
            )


def _case_findings(site: Site) -> Iterator[Finding]:
    if not site.plan.layout.cases:
        return
    running = {zone for case in site.plan.layout.cases for zone in case.open}
    for zone in site.topology.zones.values():
        if zone.heads and zone.id not in running:
            sentence = f"Zone {zone.id} runs in no case, so nothing says whether it works: add it to one."
            yield finding(NO_CASE, WARN, Measure(0, 1, (zone.id,)), sentence)


def _arc_findings(site: Site) -> Iterator[Finding]:
    for head in site.heads.values():
        part = site.parts[head.part]
        if isinstance(part, HeadPart) and part.pattern == "full_circle" and head.sweep_deg < 360:
            sentence = f"{head.id} is drawn with {head.sweep_deg:g}°, but its part wets the full circle."
            yield finding(ARC, WARN, Measure(head.sweep_deg, 360, (head.id,), head.at), sentence)


def _has_own_valve(site: Site, head: str) -> bool:
    part = site.parts[site.heads[head].part]
    return isinstance(part, HeadPart) and part.own_valve
