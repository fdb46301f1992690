"""How long the rows of a drip area may be."""

from collections.abc import Iterable
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import PRACTICE
from hydraulics.rules.rule import Place, Rule, finding

RULE = Rule(
    code="drip.row.long",
    judges="longest row of a drip area against what its line may run from the pressure at the inlet",
    limit="warn where the last emitter has less than its least pressure, or flows differ by over 10 %",
    severities=(Severity.WARN,),
    unit="m",
    source=f"{PRACTICE}; row worked out segment by segment, as Christiansen's factor stands for",
)


@dataclass(frozen=True)
class DripRow:
    """``longest_m`` from drip_row.longest_row_m at the pressure of the inlet."""

    id: str
    case: str
    row_m: float
    longest_m: float
    inlet_kpa: float


def drip_rows(rows: Iterable[DripRow]) -> list[Finding]:
    found = []
    for row in rows:
        if row.row_m <= row.longest_m + 1e-6:
            continue
        sentence = (
            f"A row of {row.id} is {row.row_m:.1f} m long and may be {row.longest_m:.1f} m at the "
            f"{row.inlet_kpa:.0f} kPa of its inlet; feed the rows in the middle or from both ends."
        )
        figures = (row.row_m, row.longest_m)
        found.append(finding(RULE, Severity.WARN, Place((row.id,), row.case), figures, sentence))
    return found
