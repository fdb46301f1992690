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
IMPOSSIBLE = Rule(
    code="head.pressure.impossible",
    judges="static pressure at a head, less the losses that do not depend on the flow, against its least",
    limit="stop below the part's least pressure: no zone is small enough",
    severities=(Severity.STOP,),
    unit="kPa",
    source=PRACTICE,
)
REGULATOR_OPEN = Rule(
    code="zone.regulator.open",
    judges="pressure that reaches a zone's regulator against the one that it should hold",
    limit="note below it: the regulator stands open and holds nothing",
    severities=(Severity.NOTE,),
    unit="kPa",
    source=PRACTICE,
)


@dataclass(frozen=True)
class HeadBoost:
    """``left_kpa`` is the static at the head less what the devices on the way take at any flow."""

    id: str
    left_kpa: float
    min_kpa: float
    at: tuple[float, float] | None = None


@dataclass(frozen=True)
class ZoneRegulator:
    zone: str
    case: str
    arriving_kpa: float
    setting_kpa: float


def head_impossible(heads: Iterable[HeadBoost]) -> list[Finding]:
    """Heads that no zone, however small, can give what they need."""
    return [_impossible(head) for head in heads if head.left_kpa < head.min_kpa]


def _impossible(head: HeadBoost) -> Finding:
    boost = head.min_kpa - head.left_kpa
    sentence = (
        f"Head {head.id} needs {head.min_kpa:.0f} kPa and has {head.left_kpa:.0f} kPa at rest, height and "
        f"backflow device taken off: impossible at any flow. It would take a boost of {boost:.0f} kPa, or "
        "heads that work at less."
    )
    place = Place((head.id,), at=head.at)
    return finding(IMPOSSIBLE, Severity.STOP, place, (head.left_kpa, head.min_kpa), sentence)


def regulator_open(regulators: Iterable[ZoneRegulator]) -> list[Finding]:
    found = []
    for regulator in regulators:
        sentence = (
            f"Only {regulator.arriving_kpa:.0f} kPa reach the regulator of {regulator.zone}, which should "
            f"hold {regulator.setting_kpa:.0f} kPa: it stands open; ask for more pressure or a lower setting."
        )
        place = Place((regulator.zone,), regulator.case)
        figures = (regulator.arriving_kpa, regulator.setting_kpa)
        found.append(finding(REGULATOR_OPEN, Severity.NOTE, place, figures, sentence))
    return found


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
