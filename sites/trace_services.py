"""Keeping what was drawn over pictures, and putting it on the drawing board."""

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from design.problems import Problem
from design.report import XY
from design.survey.document import Trace
from design.survey.readings import SurveyError
from design.survey.tracing import TracedShape, reduce_trace
from office.models import Person
from sites.drafts import put_ground
from sites.errors import SurveyRefused
from sites.models import GroundSurvey, Picture, Visit
from sites.survey_services import read_survey, save_survey, survey_of

Kept = dict[str, Any]
_LISTS = {"area": "areas", "surface": "surfaces", "boundary": "surfaces", "service": "services"}


def traces_of(survey: GroundSurvey | None) -> list[Kept]:
    return list((survey.traces if survey else {}).get("traces", []))


def trace_of(survey: GroundSurvey | None, picture_pk: int) -> Kept | None:
    """What was drawn over that picture, if anything."""
    return next((trace for trace in traces_of(survey) if trace["picture"] == picture_pk), None)


def checked_trace(trace: Kept) -> Trace:
    """The trace as its model, its limits kept. Raises SurveyRefused."""
    kept = read_survey("traces", {"traces": [trace]})
    return Trace.model_validate(kept["traces"][0])


@transaction.atomic
def save_trace(*, visit: Visit, trace: Kept, began_from: int, by: Person | None) -> GroundSurvey:
    """Keep what was drawn over one picture beside what is kept of the others.

    Raises SurveyRefused, or office.versions.Clash where the visit's ground was saved meanwhile.
    """
    others = [one for one in traces_of(survey_of(visit)) if one["picture"] != trace["picture"]]
    document = {"traces": [*others, trace]}
    return save_survey(visit=visit, part="traces", document=document, began_from=began_from, by=by)


@transaction.atomic
def put_trace(*, visit: Visit, picture: Picture, places: Mapping[str, XY], person: Person) -> int:
    """Put the kept outlines of a picture into the person's drawing; how many there were.

    Raises SurveyRefused where the picture gives none that may be used, or what put_ground raises.
    """
    kept = trace_of(survey_of(visit), picture.pk)
    if kept is None or not kept.get("outlines"):
        raise _refused("Nothing that was drawn over this picture is saved yet. Draw an outline and save it.")
    try:
        result = reduce_trace(Trace.model_validate(kept), places)
    except SurveyError as error:
        raise _refused(str(error)) from None
    if not result.usable:
        raise _refused("The check says that this scale is not to be used. " + " ".join(result.sentences))
    wrong = [shape.problem for shape in result.outlines if shape.problem]
    if wrong:
        raise _refused(" ".join(wrong))
    ground: dict[str, list[Kept]] = {}
    for shape in result.outlines:
        ground.setdefault(_LISTS[shape.becomes], []).append(_entity(shape, picture))
    put_ground(site=visit.site, person=person, ground=ground)
    return len(result.outlines)


def _entity(shape: TracedShape, picture: Picture) -> Kept:
    """The outline as a plan holds it; its id tells pictures apart, so that it can be put there again."""
    points = [[round(east, 3), round(north, 3)] for east, north in shape.points]
    entity: Kept = {"id": f"trace-{picture.pk}-{shape.id}", "label": shape.label}
    if shape.becomes == "area":
        return {**entity, "cover": shape.kind, "outline": points}
    if shape.becomes == "service":
        depth = {"depth_m": shape.depth_m} if shape.depth_m is not None else {}
        return {**entity, "kind": shape.kind, "path": points, **depth}
    return {**entity, "kind": shape.kind, "outline": points}


def _refused(text: str) -> SurveyRefused:
    return SurveyRefused((Problem("trace", "", text),))
