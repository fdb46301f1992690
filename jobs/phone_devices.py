"""What an installer needs to know of a head, a valve, a controller and the pressure test."""

from design.document import ControllerNode, HeadNode, ValveNode
from design.report import HeadResult
from hydraulics.catalogue import DripPart, PipePart
from jobs.measures import flow_words, pressure_words, tape_words
from jobs.snapshot import Snapshot

Facts = tuple[tuple[str, str], ...]
# common practice, no source
_TEST_FACTOR = 1.5


def head_facts(ref: str, snapshot: Snapshot, units: str) -> tuple[Facts, Facts, str]:
    """Big figures, further facts, and an amber note of one head."""
    node = next(node for node in snapshot.plan.layout.nodes if node.id == ref and isinstance(node, HeadNode))
    part = snapshot.parts.get(node.part)
    facts = [("Part", snapshot.part_label(node.part))]
    result = _result(ref, snapshot)
    if result is not None:
        facts.append(
            ("At work", f"{pressure_words(result.pressure_kpa, units)}, {flow_words(result.flow_lpm, units)}")
        )
    if isinstance(part, DripPart):
        return (), tuple(facts), ""
    big = [("arc", _arc_words(node))]
    if result is not None:
        big.append(("throw", tape_words(result.reach_m, units)))
    return tuple(big), tuple(facts), _short_throw(result, units)


def valve_facts(ref: str, snapshot: Snapshot, units: str) -> Facts:
    """Part of a valve or a controller, and what a valve opens."""
    node = next(
        node
        for node in snapshot.plan.layout.nodes
        if node.id == ref and isinstance(node, ValveNode | ControllerNode)
    )
    facts = [("Part", snapshot.part_label(node.part))]
    zone = next((zone for zone in snapshot.report.zones if zone.id == ref), None)
    if zone is not None:
        facts.append(("Opens", f"{', '.join(zone.heads)}: {flow_words(zone.flow_lpm, units)}"))
    return tuple(facts)


def test_facts(snapshot: Snapshot, units: str) -> tuple[Facts, Facts]:
    """Pressure and time of the main's test: common practice, no source; the code and the maker go first."""
    static_kpa = snapshot.report.supply.static_kpa
    working_kpa = max((case.connection_kpa for case in snapshot.report.cases), default=static_kpa)
    ratings = [
        part.rating_kpa
        for pipe in snapshot.report.pipes
        if pipe.role == "main" and isinstance(part := snapshot.parts.get(pipe.part), PipePart)
    ]
    target = min([max(_TEST_FACTOR * working_kpa, static_kpa), *ratings])
    facts = (
        ("Write down", "pressure at start and end, and minutes"),
        (
            "Usual, if no code says otherwise",
            f"at most {pressure_words(20, units)} lost in 60 min in rigid pipe",
        ),
        (
            "Lowest pipe rating",
            pressure_words(min(ratings), units) if ratings else "see the print on the pipe",
        ),
    )
    return (("hold", pressure_words(target, units)), ("for", "60 min")), facts


def _result(ref: str, snapshot: Snapshot) -> HeadResult | None:
    """The head in the case in which it has least pressure."""
    found = [head for case in snapshot.report.cases for head in case.heads if head.id == ref]
    return min(found, key=lambda head: head.pressure_kpa, default=None)


def _arc_words(node: HeadNode) -> str:
    if node.sweep_deg >= 360:
        return "full circle"
    return f"{node.sweep_deg:.0f}° from {node.from_deg:.0f}° to {(node.from_deg + node.sweep_deg) % 360:.0f}°"


def _short_throw(result: HeadResult | None, units: str) -> str:
    if result is None or result.needed_m <= result.reach_m + 0.05:
        return ""
    return f"It should reach {tape_words(result.needed_m, units)}: tell the office what you measure."
