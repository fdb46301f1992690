"""The check report as plain text, for the command line and for mail."""

from collections.abc import Iterable, Iterator

from design.report import AreaResult, CaseResult, CheckReport
from hydraulics.findings import Finding, Severity

WORDS = {Severity.STOP: "STOP", Severity.WARN: "WARNING", Severity.NOTE: "note"}


def report_text(report: CheckReport) -> str:
    """The whole report, ending with a line end."""
    blocks = (
        _verdict(report), _supply(report), _cases(report.cases), _zones(report), _areas(report.areas),
        _ground(report), _findings(report.findings), _moved(report),
    )  # fmt: skip
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines) + "\n"


def _verdict(report: CheckReport) -> Iterator[str]:
    counts = {kind: sum(1 for f in report.findings if f.severity == kind) for kind in Severity}
    yield (
        f"{counts[Severity.STOP]} to stop for, {counts[Severity.WARN]} to decide, "
        f"{counts[Severity.NOTE]} worth knowing"
    )
    yield "A design aid: local codes and licensed practice come first, and a competent person reviews it."


def _supply(report: CheckReport) -> Iterator[str]:
    supply = report.supply
    yield f"SUPPLY ({supply.confidence})"
    yield f"  p(q) = {supply.static_kpa:.0f} kPa - {supply.loss_coefficient:.5g} q^1.852, q in L/min"
    yield f"  design flow {supply.design_flow_lpm:.1f} L/min, bound by {supply.binding.replace('_', ' ')}"
    for cap in supply.limits:
        yield f"  {cap.flow_lpm:8.1f} L/min  {cap.sentence}"


def _cases(cases: Iterable[CaseResult]) -> Iterator[str]:
    for case in cases:
        yield f"CASE {case.label} (zones {', '.join(case.zones)})"
        yield (
            f"  {case.flow_lpm:.1f} L/min, {case.connection_kpa:.0f} kPa at the connection, worst head "
            f"{case.worst_head} with {case.worst_head_kpa:.0f} kPa by way of {' > '.join(case.worst_path)}"
        )
        yield "  head        kPa   L/min   throw   must reach"
        for head in case.heads:
            yield (
                f"  {head.id:<10}{head.pressure_kpa:5.0f} {head.flow_lpm:7.2f} {head.reach_m:6.2f} m "
                f"{head.needed_m:8.2f} m"
            )
        yield "  pipe      L/min     m/s     kPa"
        for pipe in case.pipes:
            yield f"  {pipe.id:<8}{pipe.flow_lpm:7.2f} {pipe.velocity_mps:7.2f} {pipe.loss_kpa:7.2f}"


def _zones(report: CheckReport) -> Iterator[str]:
    if report.zones:
        yield "ZONES"
    for zone in report.zones:
        rate = f", {zone.mm_per_hour:.1f} mm/h" if zone.mm_per_hour is not None else ""
        yield f"  {zone.id:<8}{zone.label:<28}{len(zone.heads):3d} heads {zone.flow_lpm:7.1f} L/min{rate}"


def _areas(areas: Iterable[AreaResult]) -> Iterator[str]:
    rows = list(areas)
    if rows:
        yield "AREAS"
    for area in rows:
        figures = [
            f"(driest {area.driest_mm_per_hour:.1f})" if area.driest_mm_per_hour is not None else "",
            f"CU {area.cu_pct:.0f} %" if area.cu_pct is not None else "",
            f"DU {area.dulq_pct:.0f} %" if area.dulq_pct is not None else "",
        ]
        yield (
            f"  {area.id:<10}{area.area_m2:8.1f} m2, {area.watered_m2:.1f} reached, "
            f"{area.twice_m2:.1f} twice, {area.mean_mm_per_hour:.1f} mm/h {' '.join(filter(None, figures))}"
        ).rstrip()
        yield from _lost(area)


def _lost(area: AreaResult) -> Iterator[str]:
    """Where an area stays dry, and where the water of its heads goes instead."""
    for spot in area.dry_spots:
        yield f"    {spot.area_m2:6.2f} m2 dry around x {spot.at[0]:.1f}, y {spot.at[1]:.1f}"
    for water in area.outside:
        place = f"{water.surface} ({water.kind.replace('_', ' ')})" if water.surface else "ground beside it"
        yield f"    {water.litres_per_hour:6.0f} L/h, {water.pct:.1f} % of its heads' water, on {place}"


def _ground(report: CheckReport) -> Iterator[str]:
    if report.pipes:
        yield f"PIPE {sum(pipe.length_m for pipe in report.pipes):.1f} m"
    if report.trench:
        yield f"TRENCH {sum(stretch.length_m for stretch in report.trench):.1f} m"
    for stretch in report.trench:
        users = ", ".join(stretch.pipes + stretch.cables)
        yield (
            f"  {stretch.id:<11}{stretch.length_m:7.2f} m {stretch.method:<8}{stretch.depth_m:5.2f} m deep  "
            f"{stretch.soil or '-':<11}{users}{'. ' + stretch.why if stretch.why else ''}"
        )
    if report.cables:
        yield "CABLES"
    for cable in report.cables:
        limit = f" of at most {cable.limit_m:.1f} m" if cable.limit_m is not None else ""
        yield (
            f"  {cable.id:<6}{cable.from_id} to {cable.to_id}: {cable.trench_m:.2f} m trench + "
            f"{cable.rise_m:.2f} m rise + {cable.slack_m:.2f} m slack = {cable.length_m:.2f} m{limit}"
        )
    if report.sleeves:
        yield "CROSSINGS UNDER PAVING"
    for sleeve in report.sleeves:
        kind = "sleeve there already" if sleeve.existing else "bore"
        lengths = f"{kind} {sleeve.bored_m:.2f} m, sleeve {sleeve.sleeve_m:.2f} m"
        yield f"  {sleeve.id:<12}{sleeve.surface}: {lengths}"


def _findings(findings: Iterable[Finding]) -> Iterator[str]:
    rows = list(findings)
    yield "FINDINGS" if rows else "FINDINGS none"
    for row in rows:
        place = ", ".join(row.where)
        case = f" (case {row.case})" if row.case else ""
        yield f"  {WORDS[row.severity]}  {row.code}  [{place}]{case}"
        yield f"    {row.sentence}"
        yield f"    measured {row.measured:g}, limit {row.limit:g} {row.unit}; source: {row.source}"


def _moved(report: CheckReport) -> Iterator[str]:
    if report.moved_limits:
        yield "LIMITS THAT THE COMPANY HAS MOVED"
    for moved in report.moved_limits:
        unit = "" if moved.unit in ("share", "ratio") else f" {moved.unit}"
        yield f"  {moved.label}: {moved.own:g}{unit}, usually {moved.usual:g}{unit}  [{moved.name}]"
