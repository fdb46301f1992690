"""Flow of a case against the flow that the supply may be counted on for."""

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding
from hydraulics.supply import DesignFlow

RULE = Rule(
    code="zone.flow.over",
    judges="flow of the zones that run together against the design flow of the supply",
    limit="warn above 100 % of the design flow, stop above 115 %",
    severities=(Severity.WARN, Severity.STOP),
    unit="L/min",
    source=PRACTICE,
)


def case_flow(
    case: str, zones: tuple[str, ...], flow_lpm: float, design: DesignFlow, limits: Limits = DEFAULT_LIMITS
) -> list[Finding]:
    """None or one finding. ``zones`` are the ids of what runs together."""
    allowed = limits.zone_flow_warn_share * design.flow_lpm
    most = limits.zone_flow_stop_share * design.flow_lpm
    # a hundredth of a litre is below what a meter's dial can tell
    if flow_lpm <= allowed + 0.01:
        return []
    stop = flow_lpm > most
    sentence = (
        f"Case “{case}” takes {flow_lpm:.1f} L/min and the supply may be counted on for "
        f"{design.flow_lpm:.1f} L/min ({design.binding.replace('_', ' ')}); "
        "split the zone or use smaller nozzles."
    )
    severity = Severity.STOP if stop else Severity.WARN
    return [finding(RULE, severity, Place(zones, case), (flow_lpm, most if stop else allowed), sentence)]
