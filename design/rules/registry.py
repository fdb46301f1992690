"""Every rule of this package: its code, what it says, its limit and its source."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import PRACTICE

XY = tuple[float, float]


@dataclass(frozen=True)
class Rule:
    """``limit`` names the field of Limits, or says what else the measure is held against."""

    code: str
    severities: tuple[Severity, ...]
    title: str
    limit: str
    unit: str
    source: str = PRACTICE


RULES: dict[str, Rule] = {}


@dataclass(frozen=True)
class Measure:
    """What one finding found: ``measured`` against ``limit`` in the rule's unit."""

    measured: float
    limit: float
    where: tuple[str, ...]
    at: XY | None = None
    case: str = ""


def rule(
    code: str, severities: Iterable[Severity], title: str, limit: str, unit: str, source: str = PRACTICE
) -> Rule:
    """Register a rule; its code must be new."""
    if code in RULES:
        raise ValueError(f"rule {code} is there twice")
    RULES[code] = Rule(code, tuple(severities), title, limit, unit, source)
    return RULES[code]


def finding(of: Rule, severity: Severity, measure: Measure, sentence: str) -> Finding:
    """A finding of a rule; the severity must be one that the rule can give."""
    if severity not in of.severities:
        raise ValueError(f"rule {of.code} gives no {severity}")
    return Finding(
        code=of.code,
        severity=severity,
        where=measure.where,
        measured=round(measure.measured, 4),
        limit=round(measure.limit, 4),
        unit=of.unit,
        sentence=sentence,
        source=of.source,
        case=measure.case,
        at=measure.at,
    )


def listed(ids: Iterable[str]) -> str:
    """Ids in a sentence: a, b and c; of many, the first six."""
    names = list(ids)
    if len(names) > 6:
        return ", ".join(names[:6]) + f" and {len(names) - 6} more"
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
