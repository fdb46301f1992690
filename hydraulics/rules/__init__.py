"""The rules: plain numbers and limits in, findings out. Nothing here reads a plan.

Each takes what it judges and, where a company may move its limits, ``limits``; each
returns a list of findings, empty where all is well.

pipe_velocity(pipes: PipeFlow, limits)            per pipe and case
head_pressure(heads: HeadPressure, limits)        per head and case
head_throw(heads: HeadThrow, limits)              per head: reach against the farthest point
head_rows(heads: HeadRows)                        per head: pressure outside its rows
case_flow(case, zones, flow_lpm, design, limits)  per case, with the DesignFlow of supply.py
zone_pressure_spread(zone, case, heads: ZoneHead, limits), zone_precipitation(same),
zone_families(zone, case, heads)                  per zone
static_rating(pipes: RatedPipe, limits)           per pipe or valve, at its lowest point
surge_rating(pipes: RatedPipe, limits)            per pipe upstream of a valve
air_points(points: HighPoint, limits), suction(nodes: NodePressure)
drip_rows(rows: DripRow)                          per drip area and case
head_impossible(heads: HeadBoost), regulator_open(regulators: ZoneRegulator)
low_head_drainage(zone, highest_m, heads: LevelHead, limits)  per zone
backflow(BackflowSite)                            once
coil_voltage(coils: CoilVolt, limits), cable_length(runs: CableRun, limits),
stations(controller, zones, station_count), transformer(controller, case, load_va, rating_va, limits)
supply_confidence(curve, limits), supply_scatter(curve, limits), static_pressure(static_kpa),
beyond_test(curve, case, flow_lpm), bucket_runs(runs of one tap), service_velocity(tested_lpm, bore_mm)
area_wetting(AreaWetting, limits): area_dry, area_once, area_uneven   per area
overspray(head, outside_pct, limits), overspray_surface(head, surface, kind, pct, limits)
head_spacing(heads: SpacedHead, limits)           per head: distance to the nearest other
"""

from hydraulics.rules.area_coverage import (
    AreaWetting,
    Spot,
    area_dry,
    area_once,
    area_uneven,
    area_wetting,
    overspray,
    overspray_surface,
)
from hydraulics.rules.control import CableRun, CoilVolt, cable_length, coil_voltage, stations, transformer
from hydraulics.rules.drainage import LevelHead, low_head_drainage
from hydraulics.rules.drip import DripRow, drip_rows
from hydraulics.rules.flows import case_flow
from hydraulics.rules.high_points import HighPoint, NodePressure, air_points, suction
from hydraulics.rules.pipe_rating import RatedPipe, static_rating, surge_rating
from hydraulics.rules.pressures import (
    HeadBoost,
    HeadPressure,
    ZoneRegulator,
    head_impossible,
    head_pressure,
    regulator_open,
)
from hydraulics.rules.protection import BackflowSite, backflow
from hydraulics.rules.spacing import SpacedHead, head_spacing
from hydraulics.rules.supply_reading import (
    beyond_test,
    bucket_runs,
    service_velocity,
    static_pressure,
    supply_confidence,
    supply_scatter,
)
from hydraulics.rules.throws import HeadRows, HeadThrow, head_rows, head_throw
from hydraulics.rules.velocities import PipeFlow, pipe_velocity
from hydraulics.rules.zone_balance import (
    ZoneHead,
    zone_families,
    zone_precipitation,
    zone_pressure_spread,
)

__all__ = [
    "AreaWetting", "BackflowSite", "CableRun", "CoilVolt", "DripRow", "HeadBoost", "HeadPressure",
    "HeadRows", "HeadThrow", "HighPoint", "LevelHead", "NodePressure", "PipeFlow", "RatedPipe",
    "SpacedHead", "Spot", "ZoneHead", "ZoneRegulator", "air_points", "area_dry", "area_once",
    "area_uneven", "area_wetting", "backflow", "beyond_test", "bucket_runs", "cable_length", "case_flow",
    "coil_voltage", "drip_rows", "head_impossible", "head_pressure", "head_rows", "head_spacing",
    "head_throw", "low_head_drainage", "overspray", "overspray_surface", "pipe_velocity",
    "regulator_open", "service_velocity", "static_pressure", "static_rating", "stations", "suction",
    "supply_confidence", "supply_scatter", "surge_rating", "transformer", "zone_families",
    "zone_precipitation", "zone_pressure_spread",
]  # fmt: skip
