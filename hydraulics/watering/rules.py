"""What does not fit, or is worth knowing, about a year of watering."""

from collections.abc import Sequence
from dataclasses import dataclass

from hydraulics.findings import Finding, Severity
from hydraulics.limits import PRACTICE
from hydraulics.rules.rule import Place, Rule, finding
from hydraulics.watering.programme import Cases, MonthProgramme
from hydraulics.watering.restrictions import Restrictions
from hydraulics.watering.zone import ZoneWater

# EPA WaterSense landscape irrigation audit guideline: least DUlq of spray turf
_LEAST_DU = 0.65

HOURS = Rule(
    "watering.hours.short",
    "minutes from first start to last stop on the busiest day of each month's week",
    "warn where they are more than the allowed hours",
    (Severity.WARN,),
    "min",
    PRACTICE,
)
CAP = Rule(
    "watering.cap.over",
    "litres in a month",
    "warn above the cap that the local authority set",
    (Severity.WARN,),
    "L",
    "the restrictions written down for this site",
)
DEEP = Rule(
    "watering.depth.over",
    "depth of one watering, where few days are allowed",
    "warn above what half of the root space's usable water holds",
    (Severity.WARN,),
    "mm",
    f"FAO-56 table 19 (from memory) and root depths by cover ({PRACTICE})",
)
FLOW = Rule(
    "watering.flow.over",
    "flow of a case against the supply",
    "warn above the design flow",
    (Severity.WARN,),
    "L/min",
    PRACTICE,
)
UNEVEN = Rule(
    "watering.uniformity.low",
    "distribution uniformity that a zone's minutes make up for",
    "note below 65 %",
    (Severity.NOTE,),
    "%",
    "EPA WaterSense landscape irrigation audit guideline, least DUlq of spray turf",
)
ASSUMED = Rule(
    "watering.uniformity.assumed",
    "distribution uniformity that was taken, not worked out",
    "note",
    (Severity.NOTE,),
    "%",
    PRACTICE,
)
MIXED = Rule(
    "watering.cover.mixed",
    "covers of different need in one zone",
    "note where there is more than one",
    (Severity.NOTE,),
    "covers",
    PRACTICE,
)

LEFT_OUT = Rule(
    "watering.zone.left_out",
    "zones whose area or precipitation rate is not known, so that no minutes can be worked out",
    "warn",
    (Severity.WARN,),
    "mm/h",
    PRACTICE,
)


@dataclass(frozen=True)
class Judged:
    months: tuple[MonthProgramme, ...]
    zones: tuple[ZoneWater, ...]
    cases: tuple[tuple[str, tuple[str, ...]], ...]
    restrictions: Restrictions
    design_flow_lpm: float


def watering_findings(judged: Judged) -> tuple[Finding, ...]:
    """Warnings first, notes behind them."""
    found = [
        *hours_short(judged.months),
        *cap_over(judged.months, judged.restrictions),
        *depth_over(judged.months, judged.zones),
        *flow_over(judged.cases, judged.zones, judged.design_flow_lpm),
        *uniformity(judged.zones),
        *mixed_covers(judged.zones),
    ]
    return tuple(sorted(found, key=lambda one: one.severity != Severity.WARN))


def hours_short(months: Sequence[MonthProgramme]) -> list[Finding]:
    """One finding that names every month; its figures are the worst's."""
    short = [month for month in months if not month.fits]
    if not short:
        return []
    worst = max(short, key=lambda month: month.busiest.total_min)
    names = _in_words([month.climate.name for month in short])
    sentence = (
        f"In {names} the watering does not fit into the allowed hours: the busiest day in "
        f"{worst.climate.name} takes {worst.busiest.total_min} min, and {worst.window_min} min are allowed. "
        "Ask for more hours or days, let zones run together that the supply can feed, or raise the rate."
    )
    figures = (float(worst.busiest.total_min), float(worst.window_min))
    return [finding(HOURS, Severity.WARN, Place(()), figures, sentence)]


def cap_over(months: Sequence[MonthProgramme], rules: Restrictions) -> list[Finding]:
    cap = rules.monthly_cap_l
    over = [month for month in months if cap is not None and month.litres > cap]
    if cap is None or not over:
        return []
    worst = max(over, key=lambda month: month.litres)
    sentence = (
        f"In {_in_words([month.climate.name for month in over])} the programme uses more than the "
        f"cap of {cap:,.0f} L a month, in {worst.climate.name} {worst.litres:,.0f} L "
        f"({100 * worst.litres / cap - 100:.0f} % over). Water less of the ground, plant for less "
        "water, or find another source."
    )
    return [finding(CAP, Severity.WARN, Place(()), (worst.litres, cap), sentence)]


def depth_over(months: Sequence[MonthProgramme], zones: Sequence[ZoneWater]) -> list[Finding]:
    """Each zone whose days are so few that a watering brings more than its roots can hold."""
    found = []
    for zone in zones:
        depths = [
            (programme.need_mm / programme.days, month.climate.name)
            for month in months
            for programme in month.zones
            if programme.zone == zone.id and programme.days
        ]
        depth, month_name = max(depths, default=(0.0, ""))
        if depth > zone.usable_mm * (1 + 1e-9):
            sentence = (
                f"Zone {zone.name} would get {depth:.1f} mm at once in {month_name}, and the roots "
                f"hold {zone.usable_mm:.1f} mm; the rest sinks below them. Allow it more days a week."
            )
            figures = (depth, zone.usable_mm)
            found.append(finding(DEEP, Severity.WARN, Place((zone.id,)), figures, sentence))
    return found


def flow_over(cases: Cases, zones: Sequence[ZoneWater], design_flow_lpm: float) -> list[Finding]:
    flows = {zone.id: zone.flow_lpm for zone in zones}
    found = []
    for label, names in cases:
        flow = sum(flows.get(name, 0.0) for name in names)
        if flow > design_flow_lpm * (1 + 1e-6):
            sentence = (
                f"Case {label} asks for {flow:.1f} L/min, and the supply is good for "
                f"{design_flow_lpm:.1f} L/min; its minutes hold only if the supply gives that much."
            )
            place = Place(tuple(names), case=label)
            found.append(finding(FLOW, Severity.WARN, place, (flow, design_flow_lpm), sentence))
    return found


def uniformity(zones: Sequence[ZoneWater]) -> list[Finding]:
    found = []
    for zone in zones:
        figures = (100 * zone.du, 100 * _LEAST_DU)
        if zone.du_is_assumed:
            sentence = (
                f"Nothing tells how evenly zone {zone.name} waters, so {100 * zone.du:.0f} % was taken; "
                "measure it with cans once it runs."
            )
            found.append(finding(ASSUMED, Severity.NOTE, Place((zone.id,)), figures, sentence))
        elif zone.du < _LEAST_DU:
            sentence = (
                f"Zone {zone.name} waters unevenly: its driest quarter gets {100 * zone.du:.0f} % of the "
                "mean, and its minutes make up for that. Better spacing would save them."
            )
            found.append(finding(UNEVEN, Severity.NOTE, Place((zone.id,)), figures, sentence))
    return found


def mixed_covers(zones: Sequence[ZoneWater]) -> list[Finding]:
    found = []
    for zone in zones:
        if len(zone.covers) > 1:
            sentence = (
                f"Zone {zone.name} waters {' and '.join(sorted(zone.covers))} together; its minutes are "
                f"for {zone.cover}, which needs most, so the rest gets too much."
            )
            figures = (float(len(zone.covers)), 1.0)
            found.append(finding(MIXED, Severity.NOTE, Place((zone.id,)), figures, sentence))
    return found


def _in_words(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
