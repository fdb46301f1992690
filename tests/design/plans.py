"""Small plans and parts that the tests of this folder build on."""

from typing import Any

from design.document import Plan
from design.loading import load_plan
from hydraulics.catalogue import Catalogue

PARTS: list[dict[str, Any]] = [
    {"kind": "pipe", "code": "pvc-25", "label": "Pipe 25", "material": "pvc", "size": "25", "outside_mm": 25,
     "bore_mm": 20.4, "rating_kpa": 1600, "joint": "solvent", "supplied": "stick", "stock_m": [6.0]},
    {"kind": "head", "code": "rotary-6", "label": "Head 6 m", "family": "rotary", "pattern": "fixed_arc",
     "rows": [{"pressure_kpa": 250, "flow_lpm": 6, "throw_m": 6}, {"pressure_kpa": 550, "flow_lpm": 6,
     "throw_m": 6}],
     "min_kpa": 250, "max_kpa": 550, "regulated_kpa": 250, "flow_scales_with_arc": True},
    {"kind": "head", "code": "round-10", "label": "Full circle 10 m", "family": "rotor",
     "pattern": "full_circle",
     "rows": [{"pressure_kpa": 200, "flow_lpm": 20, "throw_m": 10}], "min_kpa": 200, "max_kpa": 500,
     "regulated_kpa": 200},
    {"kind": "head", "code": "scan-10", "label": "Throw by bearing", "family": "bearing",
     "pattern": "by_bearing",
     "rows": [{"pressure_kpa": 200, "flow_lpm": 19.7, "throw_m": 8.6},
              {"pressure_kpa": 260, "flow_lpm": 22.4, "throw_m": 9.8},
              {"pressure_kpa": 300, "flow_lpm": 24.1, "throw_m": 10.5}],
     "min_kpa": 200, "max_kpa": 450, "min_throw_m": 3.0, "own_valve": True,
     "valve_loss": [{"flow_lpm": 24, "loss_kpa": 22}]},
    {"kind": "drip", "code": "drip-2", "label": "Drip line", "emitter_lph": 2, "emitter_spacing_m": 0.33,
     "row_spacing_m": 0.4, "edge_margin_m": 0.1, "min_kpa": 170, "max_kpa": 400},
    {"kind": "valve", "code": "valve-25", "label": "Valve", "size": "25",
     "loss": [{"flow_lpm": 24, "loss_kpa": 20}]},
    {"kind": "backflow", "code": "rp-25", "label": "Backflow preventer", "size": "25",
     "device": "reduced_pressure",
     "loss": [{"flow_lpm": 5, "loss_kpa": 70}, {"flow_lpm": 24, "loss_kpa": 80}]},
    {"kind": "meter", "code": "meter-20", "label": "Meter", "size": "20", "safe_max_lpm": 66.7},
    {"kind": "controller", "code": "controller-8", "label": "Controller", "stations": 8},
    {"kind": "cable", "code": "cable-5", "label": "Cable", "cores": 5, "conductor_mm2": 0.75,
     "ohm_per_km": 24.5},
    {"kind": "cable", "code": "link-50", "label": "Link cable, at most 50 m", "cores": 2,
     "conductor_mm2": 1.5,
     "ohm_per_km": 12.1, "limit_m": 50},
    {"kind": "sundry", "code": "sleeve-50", "label": "Sleeve", "role": "sleeve", "size": "50"},
]  # fmt: skip
CATALOGUE = Catalogue.from_dicts(PARTS)

# Site S2: a lawn with one reflex corner, (12, 9).
ODD_LAWN = [[0, 0], [9, -1], [16, 2], [17, 8], [12, 9], [10, 13], [3, 12], [-1, 6]]
SUPPLY = {"at": [0, 0], "static_kpa": 450, "tests": [{"kind": "gauge", "flow_lpm": 40, "residual_kpa": 340}]}


def make_document(**blocks: Any) -> dict[str, Any]:
    """A plan document with those blocks: ground, supply, layout."""
    return {"format": "plan/1", "supply": SUPPLY, **blocks}


def make_plan(**blocks: Any) -> Plan:
    return load_plan(make_document(**blocks))


def one_zone(**more: Any) -> dict[str, Any]:
    """A layout of one valve and one head on a 10 m x 10 m lawn."""
    layout: dict[str, Any] = {
        "nodes": [
            {"id": "S", "kind": "supply", "at": [0, 0]},
            {"id": "V1", "kind": "valve", "at": [1, 0], "part": "valve-25"},
            {"id": "H1", "kind": "head", "at": [5, 0], "part": "rotary-6", "from_deg": 270, "sweep_deg": 180},
        ],
        "pipes": [
            {"id": "P1", "from": "S", "to": "V1", "part": "pvc-25"},
            {"id": "P2", "from": "V1", "to": "H1", "part": "pvc-25"},
        ],
    }
    for name, entries in more.items():
        layout[name] = [*layout.get(name, []), *entries]
    return layout


def straight_pipe(*points: list[float]) -> dict[str, Any]:
    """A layout of one pipe along those points, from the supply to a valve with one head behind it."""
    first, *via, last = points
    end = [last[0], last[1] + 0.1]
    return {
        "nodes": [
            {"id": "S", "kind": "supply", "at": first},
            {"id": "V1", "kind": "valve", "at": last, "part": "valve-25"},
            {"id": "H1", "kind": "head", "at": end, "part": "rotary-6"},
        ],
        "pipes": [
            {"id": "P1", "from": "S", "to": "V1", "via": via, "part": "pvc-25"},
            {"id": "P2", "from": "V1", "to": "H1", "part": "pvc-25"},
        ],
    }
