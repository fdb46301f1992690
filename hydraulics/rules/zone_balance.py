"""Whether the heads of one zone work alike: pressure, precipitation, family."""

from collections.abc import Sequence
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import DEFAULT_LIMITS, PRACTICE, Limits
from hydraulics.rules.rule import Place, Rule, finding, listed

SPREAD = Rule(
    code="zone.pressure.spread",
    judges="highest less lowest pressure that acts in the heads of a zone, in percent of the highest",
    limit="warn above 20 %",
    severities=(Severity.WARN,),
    unit="%",
    source=PRACTICE,
)
MATCH = Rule(
    code="zone.precipitation.unmatched",
    judges="highest over lowest precipitation rate of the heads of a zone",
    limit="warn above 1.10, stop above 1.25",
    severities=(Severity.WARN, Severity.STOP),
    unit="ratio",
    source=PRACTICE,
)
MIXED = Rule(
    code="zone.families.mixed",
    judges="number of head families in one zone",
    limit="stop above 1",
    severities=(Severity.STOP,),
    unit="families",
    source=PRACTICE,
)


@dataclass(frozen=True)
class ZoneHead:
    """``acting_kpa`` is the pressure at the nozzle: behind the regulator, where there is one.

    ``mm_per_hour`` is flow over the sector that the head wets, or over the drip area.
    """

    id: str
    family: str
    acting_kpa: float
    mm_per_hour: float | None = None


def zone_pressure_spread(
    zone: str, case: str, heads: Sequence[ZoneHead], limits: Limits = DEFAULT_LIMITS
) -> list[Finding]:
    if len(heads) < 2:
        return []
    low, high = (f(heads, key=lambda head: head.acting_kpa) for f in (min, max))
    if high.acting_kpa <= 0:
        return []
    spread = 100 * (high.acting_kpa - low.acting_kpa) / high.acting_kpa
    limit = limits.zone_pressure_spread_pct
    if spread <= limit:
        return []
    sentence = (
        f"In zone {zone} the pressure runs from {low.acting_kpa:.0f} kPa at {low.id} to "
        f"{high.acting_kpa:.0f} kPa at {high.id}, {spread:.0f} % apart; use a larger lateral, feed it in "
        "the middle, or take regulated heads."
    )
    return [finding(SPREAD, Severity.WARN, Place((zone, low.id, high.id), case), (spread, limit), sentence)]


def zone_precipitation(
    zone: str, case: str, heads: Sequence[ZoneHead], limits: Limits = DEFAULT_LIMITS
) -> list[Finding]:
    rated = [(head.mm_per_hour, head.id) for head in heads if head.mm_per_hour]
    if len(rated) < 2:
        return []
    (least, dry), (most, wet) = min(rated), max(rated)
    ratio = most / least
    if ratio <= limits.precipitation_ratio_warn:
        return []
    stop = ratio > limits.precipitation_ratio_stop
    limit = limits.precipitation_ratio_stop if stop else limits.precipitation_ratio_warn
    sentence = (
        f"In zone {zone} head {wet} gives {most:.1f} mm/h and {dry} only {least:.1f} mm/h; "
        "use matched nozzles, or put them on separate valves."
    )
    severity = Severity.STOP if stop else Severity.WARN
    return [finding(MATCH, severity, Place((zone, wet, dry), case), (ratio, limit), sentence)]


def zone_families(zone: str, case: str, heads: Sequence[ZoneHead]) -> list[Finding]:
    families = sorted({head.family for head in heads})
    if len(families) < 2:
        return []
    sentence = (
        f"Zone {zone} mixes {listed(families)}, which water at different rates; give each its own valve."
    )
    return [finding(MIXED, Severity.STOP, Place((zone,), case), (float(len(families)), 1.0), sentence)]
