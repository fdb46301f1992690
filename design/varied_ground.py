"""The readings of a measured ground, each varied by twice its likely error: about 95 %, as for gauges."""

from collections.abc import Iterator
from typing import Any

from design.fragile import Document, Unit, Varied
from design.survey.document import PlaneSurvey
from design.survey.ground import ground_of
from design.survey.plane_readings import bearings_of, readings_of, with_reading
from design.survey.reduce import reduce_plane

TIMES = 2.0


def ground_readings(document: Document, survey: PlaneSurvey) -> Iterator[Varied]:
    """Every length and bearing of the survey. ``document`` holds the ground that the survey gives now."""
    for path, label, value_m, sigma_m in readings_of(survey):
        yield _varied(document, survey, (path, label, value_m, TIMES * sigma_m), "m")
    for path, label, value_deg, sigma_deg in bearings_of(survey):
        yield _varied(document, survey, (path, label, value_deg, TIMES * sigma_deg), "deg")


def with_measured_ground(document: Document, survey: PlaneSurvey) -> Document:
    """The document with the survey's ground in place of what has the same ids; what it lacks is added."""
    ground, measured = document.get("ground") or {}, ground_of(reduce_plane(survey), survey)
    merged = {name: _put(ground.get(name) or [], rows) for name, rows in measured.items()}
    return {**document, "ground": {**ground, **merged}}


def _varied(
    document: Document, survey: PlaneSurvey, reading: tuple[str, str, float, float], unit: Unit
) -> Varied:
    path, label, value, error = reading
    values = [changed for changed in (value - error, value + error) if changed > 0 or unit == "deg"]
    return Varied(
        f"ground.{path}", label, error, unit,
        lambda: [_with(document, survey, path, changed) for changed in values],
    )  # fmt: skip


def _with(document: Document, survey: PlaneSurvey, path: str, value: float) -> Document | str:
    changed = with_reading(survey, path, value)
    before, after = (len(reduce_plane(one).problems) for one in (survey, changed))
    if after > before:
        return next(said for _, said in reversed(reduce_plane(changed).problems))
    return with_measured_ground(document, changed)


def _put(rows: list[dict[str, Any]], new: list[dict[str, Any]]) -> list[dict[str, Any]]:
    by_id = {row["id"]: row for row in new}
    known = {row.get("id") for row in rows}
    kept = [{**row, **by_id[row["id"]]} if row.get("id") in by_id else row for row in rows]
    return [*kept, *(row for key, row in by_id.items() if key not in known)]
