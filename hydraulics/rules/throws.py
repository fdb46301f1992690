"""How far a head throws: against what it must wet, and whether its rows cover the pressure."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding

# a centimetre is below what a tape on grass can tell
TAPE_M = 0.01

SHORT = Rule(
    code="head.throw.short",
    judges="farthest point that a head must wet against its throw at the solved pressure",
    limit="warn where the throw is too short, stop where the distance is over 110 % of it",
    severities=(Severity.WARN, Severity.STOP),
    unit="m",
    source=PRACTICE,
)
OUTSIDE_ROWS = Rule(
    code="head.throw.outside_rows",
    judges="whether the part's performance rows cover the solved pressure",
    limit="warn outside the rows; the throw of the end row is then used",
    severities=(Severity.WARN,),
    unit="kPa",
    source=PRACTICE,
)


@dataclass(frozen=True)
class HeadThrow:
    """``reach_m`` is what it wets at its pressure and setting; ``needed_m`` 0 where nothing is asked."""

    id: str
    case: str
    reach_m: float
    needed_m: float
    at: tuple[float, float] | None = None


@dataclass(frozen=True)
class HeadRows:
    """``lowest_kpa`` and ``highest_kpa`` are the ends of the part's rows."""

    id: str
    case: str
    pressure_kpa: float
    lowest_kpa: float
    highest_kpa: float
    clamped: str  # as throw_at gives it: "", "low" or "high"


def head_throw(heads: Iterable[HeadThrow], limits: Limits = DEFAULT_LIMITS) -> list[Finding]:
    """Heads that do not reach the farthest point that they must wet."""
    return [_short(head, limits) for head in heads if head.needed_m > head.reach_m + TAPE_M]


def head_rows(heads: Iterable[HeadRows]) -> list[Finding]:
    """Heads whose throw could only be taken from the end of their rows."""
    return [_outside(head) for head in heads if head.clamped]


def _short(head: HeadThrow, limits: Limits) -> Finding:
    stop = head.needed_m > limits.throw_stop_share * head.reach_m
    short = head.needed_m - head.reach_m
    sentence = (
        f"Head {head.id} throws {head.reach_m:.2f} m and must reach {head.needed_m:.2f} m, "
        f"{short:.2f} m short; move it, add a head, or give it more pressure."
    )
    place = Place((head.id,), head.case, head.at)
    severity = Severity.STOP if stop else Severity.WARN
    return finding(SHORT, severity, place, (head.reach_m, head.needed_m), sentence)


def _outside(head: HeadRows) -> Finding:
    low = head.clamped == "low"
    limit = head.lowest_kpa if low else head.highest_kpa
    sentence = (
        f"Head {head.id} gets {head.pressure_kpa:.0f} kPa, {'below' if low else 'above'} its tested rows "
        f"({head.lowest_kpa:.0f} to {head.highest_kpa:.0f} kPa); its flow and throw there are not known: "
        f"{'raise' if low else 'lower'} the pressure or ask for more rows."
    )
    return finding(
        OUTSIDE_ROWS, Severity.WARN, Place((head.id,), head.case), (head.pressure_kpa, limit), sentence
    )
