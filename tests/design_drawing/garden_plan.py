# ruff: noqa: E501
"""An invented garden with one of everything, and a report written by hand for it.

The figures are set, not solved: these tests are about what a drawing shows.
"""

from copy import deepcopy
from itertools import pairwise
from math import hypot

from design.document import Plan
from design.report import (
    AreaResult,
    CableResult,
    CaseResult,
    CheckReport,
    HeadResult,
    PipeMeasure,
    PipeResult,
    SleeveMeasure,
    SupplyLimit,
    SupplyResult,
    TrenchStretch,
    ZoneResult,
)
from hydraulics.catalogue import Catalogue
from hydraulics.findings import Finding, Severity

PARTS = Catalogue.from_dicts(
    [
        {"kind": "pipe", "code": "pe-32", "label": "PE pipe 32", "material": "pe", "size": "32", "outside_mm": 32,
         "bore_mm": 26, "rating_kpa": 1000, "joint": "compression", "supplied": "coil", "stock_m": [50]},
        {"kind": "pipe", "code": "pe-25", "label": "PE pipe 25", "material": "pe", "size": "25", "outside_mm": 25,
         "bore_mm": 20.4, "rating_kpa": 1000, "joint": "compression", "supplied": "coil", "stock_m": [50]},
        {"kind": "head", "code": "rotor-9", "label": "Gear rotor, 9 m", "family": "rotor", "pattern": "fixed_arc",
         "rows": [{"pressure_kpa": 300, "flow_lpm": 6, "throw_m": 9}], "min_kpa": 250, "max_kpa": 450},
        {"kind": "head", "code": "sweeper-10", "label": "Sweeping head", "family": "bearing",
         "pattern": "by_bearing", "rows": [{"pressure_kpa": 300, "flow_lpm": 20, "throw_m": 10}], "min_kpa": 276,
         "max_kpa": 552, "own_valve": True},
        {"kind": "drip", "code": "drip-16", "label": "Drip line", "emitter_lph": 2, "emitter_spacing_m": 0.33,
         "row_spacing_m": 0.4, "min_kpa": 100, "max_kpa": 350},
        {"kind": "valve", "code": "valve-25", "label": "Valve 25", "size": "25"},
        {"kind": "controller", "code": "controller-8", "label": "Controller", "stations": 8},
        {"kind": "cable", "code": "cable-5core", "label": "Cable", "cores": 5, "conductor_mm2": 0.8,
         "ohm_per_km": 22},
    ]
)  # fmt: skip

NODES = [
    {"id": "S", "kind": "supply", "at": [12, 0.5]},
    {"id": "C", "kind": "controller", "at": [11.2, 8.5], "part": "controller-8"},
    {"id": "V1", "kind": "valve", "at": [12, 2], "part": "valve-25"},
    {"id": "V2", "kind": "valve", "at": [13, 2], "part": "valve-25"},
    {"id": "H1", "kind": "head", "at": [0.5, 0.5], "part": "rotor-9", "from_deg": 0, "sweep_deg": 90,
     "reach_m": 8.5, "label": "Front corner"},
    {"id": "H2", "kind": "head", "at": [0.5, 9], "part": "rotor-9", "from_deg": 0, "sweep_deg": 180},
    {"id": "H3", "kind": "head", "at": [9, 9], "part": "rotor-9", "from_deg": 180, "sweep_deg": 180},
    {"id": "H4", "kind": "head", "at": [9, 0.5], "part": "rotor-9", "from_deg": 270, "sweep_deg": 90},
    {"id": "H5", "kind": "head", "at": [32, 10], "part": "sweeper-10", "label": "East lawn"},
    {"id": "D1", "kind": "head", "at": [14, 17.2], "part": "drip-16", "area": "bed"},
    {"id": "J1", "kind": "junction", "at": [9, 3]},
]  # fmt: skip
PIPES = [
    {"id": "P1", "from": "S", "to": "V1", "part": "pe-32"},
    {"id": "P2", "from": "S", "to": "V2", "via": [[13, 0.5]], "part": "pe-32"},
    {"id": "P3", "from": "V1", "to": "J1", "via": [[12, 3]], "part": "pe-25"},
    {"id": "P4", "from": "J1", "to": "H4", "part": "pe-25"},
    {"id": "P5", "from": "J1", "to": "H3", "part": "pe-25"},
    {"id": "P6", "from": "H4", "to": "H1", "part": "pe-25"},
    {"id": "P7", "from": "H3", "to": "H2", "part": "pe-25"},
    {"id": "P8", "from": "V2", "to": "D1", "via": [[24.5, 2], [24.5, 17.2]], "part": "pe-25"},
    {"id": "P9", "from": "S", "to": "H5", "via": [[32, 0.5]], "part": "pe-32"},
]
MAINS = {"P1", "P2", "P9"}


def garden_dict() -> dict:
    return {
        "format": "plan/1",
        "ground": {
            "marks": [{"id": "A", "label": "House, south-west corner", "at": [11, 8]},
                      {"id": "B", "label": "House, south-east corner", "at": [23, 8]}],
            "areas": [
                {"id": "west", "label": "West lawn", "cover": "turf", "outline": [[0, 0], [9.5, 0], [9.5, 18], [0, 18]],
                 "holes": [[[3, 12], [6, 12], [6, 15], [3, 15]]]},
                {"id": "east", "label": "East lawn", "cover": "turf",
                 "outline": [[26, 3], [38, 2], [40, 12], [35, 13], [34, 18], [26, 17]]},
                {"id": "bed", "label": "Herb bed", "cover": "vegetables", "outline": [[12, 16.5], [23, 16.5], [23, 19], [12, 19]]},
            ],
            "surfaces": [
                {"id": "house", "label": "House", "kind": "building", "outline": [[11, 8], [23, 8], [23, 15], [11, 15]]},
                {"id": "path", "label": "Path", "kind": "paving", "outline": [[15, -2], [17, -2], [17, 8], [15, 8]]},
                {"id": "glass", "label": "Greenhouse to come", "kind": "future_work", "outline": [[1, 14.8], [5, 14.8], [5, 17.8], [1, 17.8]]},
                {"id": "tree", "label": "Pear tree", "kind": "tree", "outline": [[37, 5], [38, 6], [37, 7], [36, 6]]},
                {"id": "pond", "label": "Pond", "kind": "water", "outline": [[19, -1], [23, -1], [22, 2], [20, 2]]},
                {"id": "septic", "label": "Septic tank", "kind": "keep_out", "outline": [[26, 18.2], [29, 18.2], [29, 20], [26, 20]]},
            ],
            "services": [
                {"id": "gas", "kind": "gas", "path": [[18.5, -2], [18.5, 8]], "depth_m": 0.45},
                {"id": "power", "kind": "electric", "path": [[23, 11], [40, 16]], "depth_m": 0.5, "located": True},
                {"id": "storm", "kind": "drain", "path": [[0, 10.5], [11, 10.5]]},
            ],
        },
        "supply": {"at": [12, 0.5], "static_kpa": 450, "tests": [{"kind": "bucket", "litres": 20, "seconds": 30},
                   {"kind": "gauge", "flow_lpm": 40, "residual_kpa": 340}]},
        "layout": {
            "nodes": deepcopy(NODES), "pipes": deepcopy(PIPES),
            "cables": [{"id": "K1", "from": "C", "to": "V1", "via": [[11.2, 4]], "part": "cable-5core"}],
            "cases": [{"label": "West", "open": ["V1"]}],
            "notes": [{"at": [38, 15], "text": "Gate 0.9 m wide"}],
        },
    }  # fmt: skip


def garden_plan() -> Plan:
    return Plan.model_validate(garden_dict())


def run_m(path) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(path))


def _measures(plan: Plan) -> tuple[PipeMeasure, ...]:
    at = {n.id: n.at for n in plan.layout.nodes}
    paths = {p.id: (at[p.from_], *p.via, at[p.to]) for p in plan.layout.pipes}
    return tuple(
        PipeMeasure(p.id, p.part, "main" if p.id in MAINS else "lateral", paths[p.id], run_m(paths[p.id]))
        for p in plan.layout.pipes
    )


def _stretch(number: int, path, method="machine", role="lateral", surface="", why="") -> TrenchStretch:
    depth = 0.45 if role == "main" else 0.3
    return TrenchStretch(
        f"T{number}", path, run_m(path), method, depth, role, (), (), "loam", surface, why
    )  # fmt: skip


def _trench() -> tuple[TrenchStretch, ...]:
    gas = "Dig by hand: the gas pipe lies within 0.6 m."
    return (
        _stretch(1, ((12, 0.5), (12, 3), (9, 3)), role="main"),
        _stretch(2, ((9, 3), (9, 9), (0.5, 9))),
        _stretch(3, ((9, 3), (9, 0.5), (0.5, 0.5))),
        _stretch(4, ((12, 0.5), (14.7, 0.5)), role="main"),
        _stretch(5, ((14.7, 0.5), (17.3, 0.5)), "bore", "main", "path", "Bore under the path."),
        _stretch(6, ((17.3, 0.5), (19.5, 0.5)), "hand", "main", "", gas),
        _stretch(7, ((19.5, 0.5), (32, 0.5), (32, 10)), role="main"),
        _stretch(8, ((13, 2), (14.7, 2))),
        _stretch(9, ((14.7, 2), (17.3, 2)), "bore", "lateral", "path", "Bore under the path."),
        _stretch(10, ((17.3, 2), (24.5, 2), (24.5, 17.2), (14, 17.2))),
    )


def _head(entity: str, zone: str, kpa: float, throw: float, reach: float) -> HeadResult:
    part = "sweeper-10" if entity == "H5" else "rotor-9"
    return HeadResult(entity, "", part, zone, zone, kpa, 6.0, throw, reach, 8.0, None, None)


def garden_report() -> CheckReport:
    plan = garden_plan()
    heads = tuple(_head(f"H{i}", "V1", 322.0 - i, 8.9, 8.5 if i == 1 else 8.9) for i in range(1, 5))
    pipes = (PipeResult("P3", "pe-25", "West", 24.0, 1.22, 9.0),)
    kpa = {"S": 398.0, "V1": 372.0, "J1": 345.0, "H4": 338.0, "H1": 318.0}
    west = CaseResult(
        "West", ("V1",), 24.0, 407.0, "H1", 318.0, kpa, heads, pipes, ("S", "V1", "J1", "H4", "H1")
    )
    east = CaseResult("East", ("H5",), 20.0, 415.0, "H5", 331.0, {"S": 404.0, "H5": 331.0},
                      (_head("H5", "H5", 331, 9.4, 9.4),), (), ("S", "H5"))  # fmt: skip
    limit = SupplyLimit("bucket_share", 30.0, "The bucket test caps it.", "common practice, no source")
    return CheckReport(
        supply=SupplyResult(450, 0.1186, (0.0,), "measured", 30.0, "bucket_share", (limit,)),
        cases=(west, east),
        zones=(
            ZoneResult("V1", "West lawn", ("H1", "H2", "H3", "H4"), ("P3",), ("west",), 24.0, 10.0),
            ZoneResult("V2", "Herb bed", ("D1",), ("P8",), ("bed",), 9.6, 15.2),
            ZoneResult("H5", "East lawn", ("H5",), ("P9",), ("east",), 20.0, 8.0),
        ),
        areas=(
            AreaResult("west", "West lawn", 162.0, 158.0, 140.0, 10.0, 78.0, 65.0, 1.4),
            AreaResult("bed", "Herb bed", 27.5, 27.5, 27.5, 15.2, None, None, None),
            AreaResult("east", "East lawn", 181.0, 176.0, 0.0, 8.0, 80.0, 70.0, 1.3),
        ),
        pipes=_measures(plan),
        trench=_trench(),
        cables=(CableResult("K1", "C", "V1", "cable-5core", ((11.2, 8.5), (11.2, 4), (12, 2)), 6.7, 1.2, 1.5, 9.4, None),),
        sleeves=(SleeveMeasure("SL1", "path", ((14.7, 0.5), (17.3, 0.5)), 2.0, 2.6, False, ("P9",), ()),),
        findings=(
            Finding("pipe.velocity.high", Severity.WARN, ("P3",), 1.6, 1.5, "m/s", "Water runs fast in P3.",
                    "from memory", "West"),
            Finding("trench.service.unlocated", Severity.STOP, ("gas",), 0.0, 1.0, "", "Have the gas pipe located.",
                    "common practice, no source", "", (18.5, 0.5)),
        ),
    )  # fmt: skip
