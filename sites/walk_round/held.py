"""Lines whose figures are kept elsewhere: with the visit's readings, its measured ground, its photos."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sites.models import GroundSurvey, Visit
from sites.readings import VisitData
from sites.visit_columns import data_of

BUCKET_RUNS = 3
# common practice, no source
LEAST_PHOTOS = 12


@dataclass(frozen=True)
class HeldAnswer:
    """What stands there in words; ``is_complete`` where nothing more is asked."""

    text: str
    is_complete: bool


def held_answers(visit: Visit, survey: GroundSurvey | None, photos: int) -> dict[str, HeldAnswer]:
    """Every held line by its key."""
    plane = survey.plane if survey else {}
    return {
        **_of_readings(data_of(visit), visit.get_service_material_display()),
        **_of_ground(plane),
        **_of_levels(survey.levels if survey else {}),
        "photos": HeldAnswer(f"{photos} of {LEAST_PHOTOS} photos" if photos else "", photos >= LEAST_PHOTOS),
    }


def _of_readings(data: VisitData, material: str) -> dict[str, HeldAnswer]:
    hour = f" at {data.visited_at:%H:%M}" if data.visited_at else ""
    when = f"{data.measured_by}, {data.visited_on}{hour}{', ' if data.weather else ''}{data.weather}"
    runs = [f"{b.volume.text} in {b.fill.text}" for b in data.buckets]
    gauges = [f"{g.residual.text} while {g.flow.text} runs" for g in data.gauges]
    static = f"{data.static.text}{f' at {data.static_tap}' if data.static_tap else ''}" if data.static else ""
    heights = [f"{h.place} {h.height.text}" for h in data.heights]
    return {
        "who_when": HeldAnswer(when, bool(hour)),
        "meter": _joined([data.meter, data.meter_read]),
        "service_pipe": _service_pipe(data, material),
        "static": _joined([static]),
        "bucket": HeldAnswer("; ".join(runs), len(runs) >= BUCKET_RUNS),
        "residual": _joined(gauges),
        "connection_height": _joined([data.connection_z.text if data.connection_z else ""]),
        "heights": _joined(heights),
    }


def _service_pipe(data: VisitData, material: str) -> HeldAnswer:
    known = [
        material if data.service_material != "unknown" else "",
        f"bore {data.service_bore.text}" if data.service_bore else "",
        f"{data.service_length.text} long" if data.service_length else "",
    ]
    return HeldAnswer(", ".join(filter(None, known)), all(known))


def _of_ground(plane: Mapping[str, Any]) -> dict[str, HeldAnswer]:
    """From the document of ``design.survey.document.PlaneSurvey``."""
    marks = [row["name"] for row in plane.get("marks", [])]
    outlines = plane.get("outlines", [])
    houses = [row for row in outlines if row["becomes"] == "surface" and row.get("kind") == "building"]
    boundaries = [row for row in outlines if row["becomes"] == "boundary"]
    areas = [row for row in outlines if row["becomes"] == "area"]
    tapes = [f"{row['first']}–{row['second']} {row['tape']['text']}" for row in plane.get("tapes", [])]
    return {
        "fixed_corners": HeldAnswer(", ".join(marks), len(marks) >= 2),
        "house_outline": _joined([_named(row) for row in houses]),
        "boundary": _joined([_named(row) for row in boundaries]),
        "diagonals": _joined(tapes),
        "wheel": _wheel(plane.get("wheel") or {}),
        "areas": _joined([_named(row) for row in areas]),
    }


def _of_levels(levels: Mapping[str, Any]) -> dict[str, HeldAnswer]:
    """Heights read over the ground, from ``LevelSurvey``; they stand in for those from the tap."""
    sights = sum(len(setup["sights"]) for setup in levels.get("setups", []))
    number = len(levels.get("spots", [])) + len(levels.get("falls", [])) + sights
    return {"heights": HeldAnswer(f"{number} readings of the ground's heights", True)} if number else {}


def _named(outline: Mapping[str, Any]) -> str:
    return f"{outline.get('label') or outline['id']}, {len(outline['points'])} points"


def _wheel(row: Mapping[str, Any]) -> HeldAnswer:
    taped, shown = row.get("taped"), row.get("shown")
    if not (taped and shown and shown["m"] > 0):
        return HeldAnswer("", False)
    factor = taped["m"] / shown["m"]
    return HeldAnswer(f"{shown['text']} over {taped['text']}: factor {factor:.3f}", True)


def _joined(parts: list[str]) -> HeldAnswer:
    text = "; ".join(part for part in parts if part)
    return HeldAnswer(text, bool(text))
