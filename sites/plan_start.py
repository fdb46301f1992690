"""The beginning of a plan: its supply filled from what a visit measured."""

from collections.abc import Mapping
from typing import Any

from sites.models import FlowTest, Visit
from sites.supply_readings import heights_by_tap, tap_key


def plan_from_visit(visit: Visit) -> dict[str, Any]:
    """A plan/1 document with the supply's readings, and a node for the connection.

    Coordinates are a beginning only: the connection stands at the origin until it is drawn.
    Heights count from the tap, which is therefore at zero.
    """
    node: dict[str, Any] = {"id": "S", "kind": "supply", "at": [0, 0]}
    if visit.connection_z_m is not None:
        node["z_m"] = _tidy(visit.connection_z_m)
    notes = [
        {"text": f"Height measured on {visit.visited_on}: {row.place}, {row.height_text} from the tap."}
        for row in visit.heights.all()
    ]
    return {
        "format": "plan/1",
        "ground": {"marks": [], "areas": [], "surfaces": [], "services": [], "levels": []},
        "supply": _supply(visit),
        "layout": {
            "nodes": [node], "pipes": [], "cables": [], "cases": [], "sleeves": [], "notes": notes,
        },
    }  # fmt: skip


def with_readings(document: dict[str, Any], visit: Visit) -> dict[str, Any]:
    """The document with the visit's readings in place of those it had; all else stays."""
    kept = document.get("supply", {})
    tap_z_m = kept.get("z_m") or 0
    new = {name: value for name, value in _supply(visit, tap_z_m).items() if name not in ("at", "z_m")}
    return {**document, "supply": {**kept, **new}}


def _supply(visit: Visit, tap_z_m: float = 0) -> dict[str, Any]:
    """``tap_z_m`` is the height of the static reading's tap in the plan."""
    above = heights_by_tap({row.place: row.height_m for row in visit.heights.all()})
    supply: dict[str, Any] = {
        "at": [0, 0],
        "z_m": 0,
        "static_kpa": _tidy(visit.static_kpa) if visit.static_kpa is not None else None,
        "tests": [_test(test, above, tap_z_m) for test in visit.tests.all()],
    }
    if visit.service_bore_mm is not None:
        supply["service_pipe"] = {
            "material": visit.service_material,
            "bore_mm": _tidy(visit.service_bore_mm),
            "length_m": _tidy(visit.service_length_m or 0),
        }
    if visit.meter:
        supply["meter"] = visit.meter
    return {name: value for name, value in supply.items() if value is not None}


def _test(test: FlowTest, above: Mapping[str, float], tap_z_m: float) -> dict[str, Any]:
    if test.kind == FlowTest.BUCKET:
        figures = {"litres": _tidy(test.volume_l or 0), "seconds": _tidy(test.fill_s or 0)}
    else:
        figures = {"flow_lpm": _tidy(test.flow_lpm or 0), "residual_kpa": _tidy(test.residual_kpa or 0)}
    shown: dict[str, Any] = {"kind": test.kind, **figures}
    if test.tap:
        shown["tap"] = test.tap
    if above.get(tap_key(test.tap)):
        shown["z_m"] = _tidy(tap_z_m + above[tap_key(test.tap)])
    return shown


def _tidy(value: float) -> float | int:
    """Six significant digits are more than any gauge has."""
    short = float(f"{value:.6g}")
    return int(short) if short.is_integer() else short
