"""A garden of eight zones and 40 heads, with what usually lies in the ground."""

from typing import Any

from design.document import Plan
from design.loading import load_plan
from hydraulics.catalogue import Catalogue

ZONES, HEADS, SPACING_M = 8, 5, 6.0
LENGTH_M, WIDTH_M = (HEADS - 1) * SPACING_M, (ZONES - 1) * SPACING_M
PARTS = Catalogue.from_dicts(
    [
        {"kind": "pipe", "code": "pe-32", "label": "Pipe 32", "material": "pe", "size": "32",
         "outside_mm": 32, "bore_mm": 26.0, "rating_kpa": 1600, "joint": "compression",
         "supplied": "coil", "stock_m": [50]},
        {"kind": "pipe", "code": "pe-40", "label": "Pipe 40", "material": "pe", "size": "40",
         "outside_mm": 40, "bore_mm": 32.6, "rating_kpa": 1600, "joint": "compression",
         "supplied": "coil", "stock_m": [50]},
        {"kind": "head", "code": "rotor-6", "label": "Head 6 m", "family": "rotor", "pattern": "fixed_arc",
         "rows": [{"pressure_kpa": 200, "flow_lpm": 6.0, "throw_m": 5.8},
                  {"pressure_kpa": 300, "flow_lpm": 7.35, "throw_m": 6.3},
                  {"pressure_kpa": 400, "flow_lpm": 8.49, "throw_m": 6.6}],
         "min_kpa": 200, "max_kpa": 400, "flow_scales_with_arc": True},
        {"kind": "valve", "code": "valve-25", "label": "Valve", "size": "25",
         "loss": [{"flow_lpm": 10, "loss_kpa": 12}, {"flow_lpm": 30, "loss_kpa": 24}]},
        {"kind": "backflow", "code": "breaker-25", "label": "Vacuum breaker", "size": "25",
         "device": "pressure_vacuum_breaker",
         "loss": [{"flow_lpm": 10, "loss_kpa": 14}, {"flow_lpm": 40, "loss_kpa": 24}]},
        {"kind": "controller", "code": "controller-8", "label": "Controller", "stations": 8},
        {"kind": "cable", "code": "cable-9", "label": "Cable", "cores": 9, "conductor_mm2": 0.75,
         "ohm_per_km": 24.5},
    ]
)  # fmt: skip


def eight_zones() -> Plan:
    """A row of five heads behind each of eight valves, which hang on one main along the west."""
    nodes: list[dict[str, Any]] = [
        {"id": "S", "kind": "supply", "at": [-4, -3]},
        {"id": "C", "kind": "controller", "at": [-4.5, -3], "part": "controller-8"},
    ]
    pipes: list[dict[str, Any]] = []
    cables: list[dict[str, Any]] = []
    before, wired = "S", "C"
    for row in range(ZONES):
        y, junction, valve = row * SPACING_M, f"J{row}", f"V{row}"
        nodes += [
            {"id": junction, "kind": "junction", "at": [-4, y]},
            {"id": valve, "kind": "valve", "at": [-3, y], "part": "valve-25"},
        ]
        pipes += [
            {"id": f"M{row}", "from": before, "to": junction, "part": "pe-40"},
            {"id": f"N{row}", "from": junction, "to": valve, "part": "pe-32"},
        ]
        cables.append({"id": f"K{row}", "from": wired, "to": valve, "part": "cable-9"})
        before, wired, upstream = junction, valve, valve
        for column in range(HEADS):
            head, arc = f"H{row}-{column}", _arc(row, column)
            nodes.append(
                {"id": head, "kind": "head", "at": [column * SPACING_M, y], "part": "rotor-6", "area": "lawn"}
                | arc
            )
            pipes.append({"id": f"P{row}-{column}", "from": upstream, "to": head, "part": "pe-32"})
            upstream = head
    return load_plan(
        {
            "format": "plan/1",
            "ground": _ground(),
            "supply": {
                "at": [-4, -3],
                "static_kpa": 450,
                "tests": [{"kind": "gauge", "flow_lpm": 40, "residual_kpa": 380}],
                "backflow": "breaker-25",
                "backflow_height_m": 1.5,
            },
            "layout": {"nodes": nodes, "pipes": pipes, "cables": cables},
        }
    )


def _arc(row: int, column: int) -> dict[str, float]:
    """Into the lawn from its edges, a full circle inside."""
    west, east, south, north = column == 0, column == HEADS - 1, row == 0, row == ZONES - 1
    if not (west or east or south or north):
        return {"from_deg": 0, "sweep_deg": 360}
    if (west or east) and (south or north):
        start = {(True, True): 0, (True, False): 90, (False, False): 180, (False, True): 270}[west, south]
        return {"from_deg": start, "sweep_deg": 90}
    return {"from_deg": 0 if west else 180 if east else 270 if south else 90, "sweep_deg": 180}


def _ground() -> dict[str, Any]:
    return {
        "areas": [
            {"id": "lawn", "outline": [[0, 0], [LENGTH_M, 0], [LENGTH_M, WIDTH_M], [0, WIDTH_M]]},
        ],
        "surfaces": [
            {"id": "house", "kind": "building", "outline": [[-4, -12], [10, -12], [10, -3], [-4, -3]]},
            {"id": "path", "kind": "paving", "outline": [[-6, 19.5], [-1, 19.5], [-1, 20.7], [-6, 20.7]]},
            {"id": "deck", "kind": "future_work", "outline": [[26, 10], [30, 10], [30, 16], [26, 16]]},
        ],
        "services": [
            {"id": "gas", "kind": "gas", "path": [[-8, 8.5], [12, 8.5]], "depth_m": 0.75, "located": True},
            {"id": "drain", "kind": "drain", "path": [[15, -2], [15, 50]], "depth_m": 0.1, "located": True},
        ],
        "levels": [{"at": [-4, -3], "z_m": 0}, {"at": [24, 0], "z_m": 0.4}, {"at": [24, 42], "z_m": 0.9}],
    }
