"""The readings of a measured ground, each varied by twice its likely error: about 95 %, as for gauges."""

from collections.abc import Iterator
from dataclasses import dataclass

from design.fragile import Document, Unit, Varied
from design.putting import put_rows
from design.survey.document import PlaneSurvey
from design.survey.ground import ground_of
from design.survey.plane_readings import bearings_of, readings_of, with_reading
from design.survey.reduce import PlaneResult, reduce_plane

TIMES = 2.0


def ground_readings(document: Document, survey: PlaneSurvey) -> Iterator[Varied]:
    """Every length and bearing of the survey. ``document`` holds the ground that the survey gives now."""
    base = _Base(document, survey, len(reduce_plane(survey).problems))
    for path, label, value_m, sigma_m in readings_of(survey):
        yield _varied(base, (path, label, value_m, TIMES * sigma_m), "m")
    for path, label, value_deg, sigma_deg in bearings_of(survey):
        yield _varied(base, (path, label, value_deg, TIMES * sigma_deg), "deg")


def with_measured_ground(document: Document, survey: PlaneSurvey, result: PlaneResult) -> Document:
    """The document with the survey's ground in place of what has the same ids; what it lacks is added.

    ``result`` is what the survey reduces to.
    """
    ground, measured = document.get("ground") or {}, ground_of(result, survey)
    merged = {name: put_rows(ground.get(name) or [], rows) for name, rows in measured.items()}
    return {**document, "ground": {**ground, **merged}}


@dataclass(frozen=True)
class _Base:
    document: Document
    survey: PlaneSurvey
    problems: int  # that the readings have as they are


def _varied(base: _Base, reading: tuple[str, str, float, float], unit: Unit) -> Varied:
    path, label, value, error = reading
    values = [changed for changed in (value - error, value + error) if changed > 0 or unit == "deg"]
    return Varied(
        f"ground.{path}", label, error, unit,
        lambda: [_with(base, path, changed) for changed in values],
    )  # fmt: skip


def _with(base: _Base, path: str, value: float) -> Document | str:
    changed = with_reading(base.survey, path, value)
    result = reduce_plane(changed)
    if len(result.problems) > base.problems:
        _, said = result.problems[-1]
        return said
    return with_measured_ground(base.document, changed, result)
