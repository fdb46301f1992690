"""What every rule states about itself, and how it makes its findings."""

from collections.abc import Sequence
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity


@dataclass(frozen=True)
class Rule:
    """One stable code with what it judges, its usual limit in words, and what it rests on."""

    code: str
    judges: str
    limit: str
    severities: tuple[Severity, ...]
    unit: str
    source: str


@dataclass(frozen=True)
class Place:
    """Where a finding points: ids of plan entities, the case, and a point if there is one."""

    where: tuple[str, ...]
    case: str = ""
    at: tuple[float, float] | None = None


def finding(
    rule: Rule, severity: Severity, place: Place, figures: tuple[float, float], sentence: str
) -> Finding:
    """A finding of that rule; ``figures`` are what was measured and the limit, in the rule's unit."""
    measured, limit = figures
    return Finding(
        code=rule.code,
        severity=severity,
        where=place.where,
        measured=measured,
        limit=limit,
        unit=rule.unit,
        sentence=sentence,
        source=rule.source,
        case=place.case,
        at=place.at,
    )


def listed(names: Sequence[str], most: int = 6) -> str:
    """Names in a sentence, the rest counted."""
    if len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return ", ".join(names)
