"""Pressure at each head against what its maker asks for."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding

LOW = Rule(
    code="head.pressure.low",
    judges="pressure at a head or drip inlet against the least that its part works at",
    limit="stop below the part's least pressure, warn below 110 % of it",
    severities=(Severity.WARN, Severity.STOP),
    unit="kPa",
    source=PRACTICE,
)
HIGH = Rule(
    code="head.pressure.high",
    judges="pressure at a head or drip inlet against the most that its part works at",
    limit="warn above the part's greatest pressure",
    severities=(Severity.WARN,),
    unit="kPa",
    source=PRACTICE,
)


@dataclass(frozen=True)
class HeadPressure:
    id: str
    case: str
    pressure_kpa: float
    min_kpa: float
    max_kpa: float
    at: tuple[float, float] | None = None
    label: str = ""

    @property
    def name(self) -> str:
        return f"{self.label} ({self.id})" if self.label else self.id


def head_pressure(heads: Iterable[HeadPressure], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """At most one finding per head and case."""
    judged = (_judge(head, limits) for head in heads)
    return [found for found in judged if found is not None]


def _judge(head: HeadPressure, limits: Limits) -> Finding | None:
    place = Place((head.id,), head.case, head.at)
    least = limits.head_pressure_warn_share * head.min_kpa
    measured = head.pressure_kpa
    if measured < head.min_kpa:
        sentence = (
            f"Head {head.name} gets {measured:.0f} kPa and needs {head.min_kpa:.0f} kPa; "
            "use a larger pipe, a shorter way, or fewer heads in this zone."
        )
        return finding(LOW, Severity.STOP, place, (measured, head.min_kpa), sentence)
    if measured < least:
        sentence = (
            f"Head {head.name} gets {measured:.0f} kPa, hardly above the {head.min_kpa:.0f} kPa that it "
            f"needs; leave {least:.0f} kPa, so that it still works on a dry summer evening."
        )
        return finding(LOW, Severity.WARN, place, (measured, least), sentence)
    if measured > head.max_kpa:
        sentence = (
            f"Head {head.name} gets {measured:.0f} kPa, above its {head.max_kpa:.0f} kPa, and will mist; "
            "use a regulated head or a pressure regulator."
        )
        return finding(HIGH, Severity.WARN, place, (measured, head.max_kpa), sentence)
    return None
