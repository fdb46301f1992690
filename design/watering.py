"""A plan's year of watering: its zones as the programme needs them, from the check's report."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from design.document import Area, Plan
from design.report import AreaResult, CheckReport, ZoneResult
from hydraulics.findings import Finding, Severity
from hydraulics.rules.rule import Place, finding
from hydraulics.watering import COVERS, Climate, Restrictions, WateringYear, ZoneWater, watering_year
from hydraulics.watering.programme import Choices
from hydraulics.watering.rules import LEFT_OUT
from hydraulics.watering.soil import intake_mm_per_hour

# EPA WaterSense landscape irrigation audit guideline: least DUlq of spray turf
SPRAY_DU = 0.65
# common practice, no source: emission uniformity of compensated drip line
DRIP_DU = 0.90
# common practice, no source: wind and wear keep sprinklers below what a calm drawing shows
MOST_SPRAY_DU = 0.85


def plan_watering(
    plan: Plan, report: CheckReport, climate: Climate, rules: Restrictions, choices: Choices
) -> WateringYear:
    """The year's programme of the plan's zones, by the flows and rates that the check found.

    A zone without an area or a rate is left out, and a finding says so. Raises NoRate where
    uneven water allows no run time.
    """
    areas = {area.id: area for area in plan.ground.areas}
    wetted = {area.id: area for area in report.areas}
    zones, left_out = [], []
    for zone in report.zones:
        own = [areas[name] for name in zone.areas if name in areas]
        if own and zone.mm_per_hour and zone.flow_lpm > 0:
            zones.append(_zone_water(zone, own, wetted))
        else:
            left_out.append(_left_out(zone))
    cases = [(case.label, case.zones) for case in report.cases]
    year = watering_year(climate, zones, cases, rules, choices, report.supply.design_flow_lpm)
    return replace(year, findings=(*left_out, *year.findings))


def _zone_water(zone: ZoneResult, areas: Sequence[Area], wetted: Mapping[str, AreaResult]) -> ZoneWater:
    """Of several areas the thirstiest cover, the slowest soil, the steepest slope and the worst DU."""
    rate = zone.mm_per_hour or 0.0
    du, is_assumed = _uniformity(areas, wetted)
    slope = max(area.slope_pct for area in areas)

    def intake(area: Area) -> float:
        return intake_mm_per_hour(area.soil, slope, COVERS[area.cover].is_closed)

    return ZoneWater(
        id=zone.id,
        label=zone.label,
        flow_lpm=zone.flow_lpm,
        mm_per_hour=rate,
        du=du,
        cover=max((area.cover for area in areas), key=lambda cover: COVERS[cover].factor),
        soil=min(areas, key=intake).soil,
        slope_pct=slope,
        area_m2=60 * zone.flow_lpm / rate,
        du_is_assumed=is_assumed,
        covers=tuple(sorted({area.cover for area in areas})),
    )


def _uniformity(areas: Iterable[Area], wetted: Mapping[str, AreaResult]) -> tuple[float, bool]:
    """DUlq as a share, the worst of the areas but at most 0.85, and whether any of it had to be taken."""
    found = [wetted[area.id] for area in areas if area.id in wetted]
    known = [min(area.dulq_pct / 100, MOST_SPRAY_DU) for area in found if area.dulq_pct is not None]
    # Drip is laid evenly by its rows, so that the report has a rate for it and no uniformity.
    taken = [DRIP_DU if area.mean_mm_per_hour > 0 else SPRAY_DU for area in found if area.dulq_pct is None]
    if not found:
        taken = [SPRAY_DU]
    return min([*known, *taken]), bool(taken)


def _left_out(zone: ZoneResult) -> Finding:
    sentence = (
        f"Zone {zone.label or zone.id} has no area or no precipitation rate, so it has no minutes here; "
        "draw the area that it waters, and let every head of it reach that area."
    )
    return finding(LEFT_OUT, Severity.WARN, Place((zone.id,)), (zone.mm_per_hour or 0.0, 0.0), sentence)
