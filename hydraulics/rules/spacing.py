"""How far apart heads stand against what they throw, less what the wind takes."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding

# a hair of the throw: less than a tape on grass can tell
TOLERANCE_SHARE = 1.005

SPACING = Rule(
    code="head.spacing.wide",
    judges="distance to the nearest other head against the throw less the allowance for wind",
    limit="warn above the throw (90 % of it where 10 % are allowed for wind), stop above 110 % of that",
    severities=(Severity.WARN, Severity.STOP),
    unit="m",
    source=PRACTICE,
)


@dataclass(frozen=True)
class SpacedHead:
    """A head with its throw, its nearest neighbour and how far off that stands."""

    id: str
    throw_m: float
    other: str
    apart_m: float
    at: tuple[float, float] | None = None


def head_spacing(heads: Iterable[SpacedHead], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """Heads that are farther from their nearest neighbour than they should be."""
    judged = (_judge(head, limits) for head in heads if head.throw_m > 0)
    return [found for found in judged if found is not None]


def _judge(head: SpacedHead, limits: Limits) -> Finding | None:
    allowed = head.throw_m * (1 - limits.wind_allowance_pct / 100)
    if head.apart_m <= allowed * TOLERANCE_SHARE:
        return None
    stop = head.apart_m > allowed * limits.spacing_stop_share
    wind = f", {allowed:.2f} m when the wind blows" if limits.wind_allowance_pct else ""
    sentence = (
        f"{head.id} stands {head.apart_m:.2f} m from its nearest neighbour {head.other} and throws "
        f"{head.throw_m:.2f} m{wind}: heads should reach each other."
    )
    severity = Severity.STOP if stop else Severity.WARN
    place = Place((head.id, head.other), at=head.at)
    return finding(SPACING, severity, place, (round(head.apart_m, 4), round(allowed, 4)), sentence)
