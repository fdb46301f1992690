"""Low heads that let the lateral run empty after each watering."""

from collections.abc import Sequence
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding, listed

RULE = Rule(
    code="zone.drainage.low_head",
    judges="how far a head without a strong enough check valve lies below the highest of its zone",
    limit="warn above 1.5 m",
    severities=(Severity.WARN,),
    unit="m",
    source=PRACTICE,
)


@dataclass(frozen=True)
class LevelHead:
    """``check_height_m`` is the height of water that the head's own check valve holds back."""

    id: str
    level_m: float
    check_height_m: float = 0.0


def low_head_drainage(
    zone: str, highest_m: float, heads: Sequence[LevelHead], limits: Limits = DEFAULT_LIMITS
) -> list[Finding]:
    """``highest_m`` is the highest level of the zone behind its valve, heads and pipes alike."""
    draining = [
        head
        for head in heads
        if highest_m - head.level_m > max(limits.low_head_drainage_m, head.check_height_m)
    ]
    if not draining:
        return []
    lowest = min(draining, key=lambda head: head.level_m)
    fall = highest_m - lowest.level_m
    sentence = (
        f"After watering zone {zone} drains through {listed([head.id for head in draining])}, up to "
        f"{fall:.1f} m below its highest point; use heads with a check valve that holds {fall:.1f} m."
    )
    where = (zone, *(head.id for head in draining))
    return [finding(RULE, Severity.WARN, Place(where), (fall, limits.low_head_drainage_m), sentence)]
