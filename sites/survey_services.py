"""Keeping the measured ground of a visit: one row of three documents, each saved by itself."""

import json
from typing import Any, Literal

from django.db import transaction
from pydantic import BaseModel, ValidationError

from design.problems import Problem
from design.survey.document import LevelSurvey, PlaneSurvey, TraceSurvey
from design.translate_errors import problems_from_validation
from office.audit import record
from office.models import Person
from office.versions import Clash, save_version
from sites.errors import SurveyRefused
from sites.models import GroundSurvey, Visit

Part = Literal["plane", "levels", "traces"]
MODELS: dict[Part, type[BaseModel]] = {"plane": PlaneSurvey, "levels": LevelSurvey, "traces": TraceSurvey}
MAX_BYTES = 500_000
_MOST_PROBLEMS = 50


def survey_of(visit: Visit) -> GroundSurvey | None:
    """What was measured on the visit; none where nobody has kept any reading."""
    return GroundSurvey.objects.filter(visit=visit).first()


@transaction.atomic
def save_survey(
    *, visit: Visit, part: Part, document: dict[str, Any], began_from: int, by: Person | None
) -> GroundSurvey:
    """Keep one document of the visit's ground; ``began_from`` is the row's version, 0 for none yet.

    Raises SurveyRefused with what is wrong with the document, or office.versions.Clash where
    somebody saved any of the three since.
    """
    kept = read_survey(part, document)
    Visit.objects.select_for_update().get(pk=visit.pk)  # two first saves at once come one after the other
    stored = survey_of(visit)
    if stored is None:
        saved = GroundSurvey(visit=visit, **{part: kept})
        saved.full_clean()
        saved.save()
    elif stored.version != began_from:
        raise Clash(stored)
    else:
        saved = save_version(stored, began_from=began_from, fields={part: kept})
    record(by=by, verb="ground.measured", subject=saved, detail={"visit": visit.pk, "part": part})
    return saved


def read_survey(part: Part, document: dict[str, Any]) -> dict[str, Any]:
    """The document as it is stored, or SurveyRefused."""
    try:
        text = json.dumps(document, allow_nan=False)
    except (TypeError, ValueError, RecursionError):
        raise _refused("The readings hold something that cannot be stored.") from None
    if len(text) > MAX_BYTES:
        raise _refused("These are more readings than one visit can hold. Keep the rest with another visit.")
    try:
        model = MODELS[part].model_validate_json(text)
    except ValidationError as error:
        raise SurveyRefused(tuple(problems_from_validation(error, document)[:_MOST_PROBLEMS])) from None
    return model.model_dump(mode="json", exclude_defaults=True)


def _refused(sentence: str) -> SurveyRefused:
    return SurveyRefused((Problem("readings", "", sentence),))
