"""Pressure in a pipe against its rating: at rest, and when a valve shuts."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, Limits
from hydraulics.rules.rule import Place, Rule, finding

STATIC = Rule(
    code="pipe.pressure.static",
    judges="static pressure at the lowest point of a pipe or device against its rating",
    limit="warn above 72 % of the rating, stop above the rating",
    severities=(Severity.WARN, Severity.STOP),
    unit="kPa",
    source="ASAE S376.1 as quoted in the NRCS Missouri Livestock Watering Systems Handbook, ch. 5",
)
SURGE = Rule(
    code="pipe.pressure.surge",
    judges="static pressure plus the surge of a sudden valve closure against the pipe's rating",
    limit="stop above the rating, or the share of it that the company allows",
    severities=(Severity.STOP,),
    unit="kPa",
    source="Joukowsky's law with the wave speed of the pipe; sudden closure is the upper bound",
)


@dataclass(frozen=True)
class RatedPipe:
    """``static_kpa`` at its lowest point with nothing running; ``surge_kpa`` from surge.py, 0 for none."""

    id: str
    rating_kpa: float
    static_kpa: float
    surge_kpa: float = 0.0
    velocity_mps: float = 0.0
    case: str = ""


def static_rating(pipes: Iterable[RatedPipe], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    found = []
    for pipe in pipes:
        usual = limits.static_share_of_rating * pipe.rating_kpa
        if pipe.static_kpa <= usual:
            continue
        stop = pipe.static_kpa > pipe.rating_kpa
        limit = pipe.rating_kpa if stop else usual
        sentence = (
            f"At rest {pipe.id} stands under {pipe.static_kpa:.0f} kPa, more than {limit:.0f} kPa "
            f"(rated {pipe.rating_kpa:.0f} kPa); fit a pressure regulator or take a stronger part."
        )
        severity = Severity.STOP if stop else Severity.WARN
        found.append(finding(STATIC, severity, Place((pipe.id,)), (pipe.static_kpa, limit), sentence))
    return found


def surge_rating(pipes: Iterable[RatedPipe], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """Pipes upstream of a valve, each with the velocity that the valve stops."""
    found = []
    for pipe in pipes:
        peak = pipe.static_kpa + pipe.surge_kpa
        most = limits.surge_share_of_rating * pipe.rating_kpa
        if peak <= most:
            continue
        sentence = (
            f"When a valve stops {pipe.velocity_mps:.2f} m/s, pipe {pipe.id} may see {peak:.0f} kPa "
            f"({pipe.static_kpa:.0f} at rest, {pipe.surge_kpa:.0f} surge), above the {most:.0f} kPa that it "
            f"may (rated {pipe.rating_kpa:.0f} kPa); take a larger or stronger pipe."
        )
        place = Place((pipe.id,), pipe.case)
        found.append(finding(SURGE, Severity.STOP, place, (peak, most), sentence))
    return found
