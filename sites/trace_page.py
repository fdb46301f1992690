"""What the page of a picture drawn over shows: the picture, what is kept, what the server says of it."""

from collections.abc import Mapping
from typing import Any

from django.urls import reverse

from design.problems import Problem
from design.report import XY
from design.survey.document import Trace
from design.survey.readings import SurveyError
from design.survey.tracing import TracedShape, TraceResult, can_be_slanted, reduce_trace
from hydraulics.sentences import in_units_of
from sites.figures import default_unit, in_system, unit_written
from sites.models import GroundSurvey, Picture, Visit
from sites.survey_forms import BECOMES
from sites.trace_body import shown_trace
from sites.trace_services import trace_of

WORDS = {
    "good": "Scale checked: good",
    "unsure": "Scale checked: unsure",
    "do not use": "Do not use this scale",
    "not checked": "Scale not checked yet",
}
TONES = {"good": "good", "unsure": "warn", "do not use": "stop", "not checked": "note"}


def trace_data(
    visit: Visit, picture: Picture, survey: GroundSurvey | None, places: Mapping[str, XY]
) -> dict[str, Any]:
    """The JSON in the page."""
    kept = trace_of(survey, picture.pk)
    return {
        "trace": shown_trace(kept),
        "began_from": survey.version if survey else 0,
        "picture": {
            "id": picture.pk,
            "url": reverse("sites:picture", args=[picture.pk]),
            "width": picture.width,
            "height": picture.height,
        },
        "points": sorted(places),
        "becomes": [{"label": label, "choices": choices} for label, choices in BECOMES],
        "unit": unit_written(default_unit("length", visit.site.units)),
        "urls": {
            "work": reverse("sites:trace-work", args=[visit.pk]),
            "save": reverse("sites:trace-save", args=[visit.pk]),
        },
        "answer": worked(Trace.model_validate(kept), places, visit.site.units) if kept else None,
    }


def worked(trace: Trace, places: Mapping[str, XY], units: str) -> dict[str, Any]:
    """What the picture gives, in words; ``scale_missing`` says why it gives no metres yet."""
    answer: dict[str, Any] = {"can_slant": can_be_slanted(trace, places), "problems": []}
    try:
        result = reduce_trace(trace, places)
    except SurveyError as error:
        return {**answer, "scale_missing": in_units_of(units, str(error)), "sentences": [], "outlines": {}}
    return {**answer, "scale_missing": "", **_said(result, units)}


def refused(problems: tuple[Problem, ...]) -> dict[str, Any]:
    """What is wrong with what was typed, by part and field."""
    return {
        "detail": "Not saved yet. " + " ".join(dict.fromkeys(problem.sentence for problem in problems)),
        "problems": [{"part": one.entity, "field": one.field, "sentence": one.sentence} for one in problems],
    }


def summary(trace: dict[str, Any] | None) -> list[str]:
    """A trace in a few lines, for two versions side by side."""
    shown = shown_trace(trace)
    lines = [
        f"{name.capitalize()}: {bar['length'] or ' to '.join(filter(None, (bar['first'], bar['second'])))}"
        for name in ("scale", "check")
        if (bar := shown[name])
    ]
    for row in shown["outlines"]:
        lines.append(f"{row['label'] or row['id']}: {row['kind']}, {len(row['pixels'])} corners")
    return lines or ["Nothing drawn."]


def _said(result: TraceResult, units: str) -> dict[str, Any]:
    return {
        "verdict": WORDS[result.verdict],
        "tone": TONES[result.verdict],
        "usable": result.usable,
        "sentences": [in_units_of(units, sentence) for sentence in result.sentences],
        "error": f"Likely error of a corner: {in_system(result.error_m, 'length', units)}.",
        "per_pixel": f"One pixel is {in_system(result.metres_per_pixel * 1000, 'depth', units)}.",
        "outlines": {shape.id: _size(shape, units) for shape in result.outlines},
    }


def _size(shape: TracedShape, units: str) -> dict[str, str]:
    if shape.problem:
        return {"size": "", "problem": in_units_of(units, shape.problem)}
    length = in_system(shape.length_m, "length", units)
    if not shape.closed:
        return {"size": length, "problem": ""}
    return {"size": f"{in_system(shape.area_m2, 'area', units)}, {length} round", "problem": ""}
