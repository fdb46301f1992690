"""How the rules on layout and ground make their findings; the shape is that of hydraulics.rules."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import PRACTICE
from hydraulics.rules.rule import Place, Rule
from hydraulics.rules.rule import finding as make_finding

XY = tuple[float, float]


@dataclass(frozen=True)
class Measure:
    """What one finding found: ``measured`` against ``limit`` in the rule's unit, and where."""

    measured: float
    limit: float
    where: tuple[str, ...]
    at: XY | None = None
    case: str = ""


def rule(
    code: str, severities: Iterable[Severity], judges: str, limit: str, unit: str, source: str = PRACTICE
) -> Rule:
    """A rule; most of those on site rest on common practice."""
    return Rule(code, judges, limit, tuple(severities), unit, source)


def finding(of: Rule, severity: Severity, measure: Measure, sentence: str) -> Finding:
    """A finding of a rule; the severity must be one that the rule can give."""
    if severity not in of.severities:
        raise ValueError(f"rule {of.code} gives no {severity}")
    place = Place(measure.where, measure.case, measure.at)
    figures = (round(measure.measured, 4), round(measure.limit, 4))
    return make_finding(of, severity, place, figures, sentence)


def listed(ids: Iterable[str]) -> str:
    """Ids in a sentence: a, b and c; of many, the first six."""
    names = list(ids)
    if len(names) > 6:
        return ", ".join(names[:6]) + f" and {len(names) - 6} more"
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
