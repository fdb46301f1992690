"""High points of a pipe, where air gathers and stays, and pressure below that of the air around."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding

AIR = Rule(
    code="pipe.air.high_point",
    judges="rise of a pipe above its surroundings at a high point where no head lets air out",
    limit="note above 0.5 m",
    severities=(Severity.NOTE,),
    unit="m",
    source=PRACTICE,
)
SUCTION = Rule(
    code="pipe.pressure.suction",
    judges="pressure in the pipe at a node while its case runs",
    limit="stop below 0 kPa: the place lies above the water's pressure line",
    severities=(Severity.STOP,),
    unit="kPa",
    source=PRACTICE,
)


@dataclass(frozen=True)
class HighPoint:
    """``rise_m`` is how far water must come down on either side before it may rise again."""

    pipes: tuple[str, ...]
    rise_m: float
    at: tuple[float, float] | None = None


@dataclass(frozen=True)
class NodePressure:
    id: str
    case: str
    pressure_kpa: float
    at: tuple[float, float] | None = None


def air_points(points: Iterable[HighPoint], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    found = []
    for point in points:
        if point.rise_m <= limits.air_high_point_m:
            continue
        sentence = (
            f"{' and '.join(point.pipes)} rise {point.rise_m:.2f} m above both sides, and air that gathers "
            "there stays; put a head or an air valve at the highest place, or lay the pipe in a steady grade."
        )
        place = Place(point.pipes, at=point.at)
        found.append(finding(AIR, Severity.NOTE, place, (point.rise_m, limits.air_high_point_m), sentence))
    return found


def suction(nodes: Iterable[NodePressure]) -> list[Finding]:
    """Nodes in whose pipe the pressure falls below that of the air; heads have a rule of their own."""
    found = []
    for node in nodes:
        if node.pressure_kpa >= 0:
            continue
        sentence = (
            f"At {node.id} the pressure falls to {node.pressure_kpa:.0f} kPa, below that of the air: water "
            "may be drawn in or not get there; use a larger pipe, a lower way, or a booster."
        )
        place = Place((node.id,), node.case, node.at)
        found.append(finding(SUCTION, Severity.STOP, place, (node.pressure_kpa, 0.0), sentence))
    return found
