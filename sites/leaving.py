"""Before leaving a site: what the readings hang on, what is missing, and whether the ground closes."""

import time
from dataclasses import dataclass
from typing import Any

from design.comparing import entities, path_of
from design.fragile import Document, Fragile, Outcome, Varied, find_fragile
from design.geometry import ring_area
from design.partial_check import check_document
from design.survey.document import PlaneSurvey
from design.survey.reduce import PlaneResult, reduce_plane
from design.varied_ground import ground_readings, with_measured_ground
from design.varied_supply import supply_readings
from hydraulics.catalogue import Catalogue
from hydraulics.limits import Limits
from office.models import Person
from parts.services import catalogue
from sites.drafts import drawing_for
from sites.limit_services import company_limits
from sites.models import Visit
from sites.plan_start import with_readings
from sites.survey_page import plane_of
from sites.survey_services import survey_of

# beyond it what moves is still told, which takes a moment more, and no further plan is checked
MOST_SECONDS = 6.0
# common practice, no source: an owner's guess of an area is good to a fifth
AREA_SAID_SHARE = 0.20


@dataclass(frozen=True)
class FragileReadings:
    """``checked`` of the ``asked`` readings were judged by a check, the others by what moves alone."""

    found: tuple[Fragile, ...]
    asked: int
    checked: int


@dataclass(frozen=True)
class AreaSaid:
    """The owner's own figure beside the measured one [m2]."""

    said_m2: float
    measured_m2: float

    @property
    def share(self) -> float:
        return self.measured_m2 / self.said_m2 - 1

    @property
    def is_far_off(self) -> bool:
        return abs(self.share) > AREA_SAID_SHARE


@dataclass(frozen=True)
class Ground:
    """The measured ground of a visit and the drawing that it belongs into."""

    survey: PlaneSurvey
    result: PlaneResult
    document: Document
    is_measured: bool


def ground_of_visit(visit: Visit, person: Person) -> Ground:
    """What the person is drawing, or the newest plan, with what this visit measured in its place."""
    stored = survey_of(visit)
    survey = plane_of(stored)
    drawing = drawing_for(site=visit.site, person=person)
    document: dict[str, Any] = with_readings(drawing.document, visit)
    result = reduce_plane(survey)
    return Ground(
        survey,
        result,
        with_measured_ground(document, survey, result),
        stored is not None and bool(survey.marks),
    )


def fragile_readings(ground: Ground) -> FragileReadings:
    """Every reading varied by its own error, as long as there is time to check what comes of it."""
    parts, limits, began, count = catalogue(), company_limits(), time.monotonic(), 0
    readings: list[Varied] = [
        *supply_readings(ground.document, limits),
        *ground_readings(ground.document, ground.survey),
    ]

    def judge(document: Document) -> Outcome:
        nonlocal count
        if time.monotonic() - began > MOST_SECONDS:
            return Outcome(document, None)
        count += 1
        return _judged(document, parts, limits)

    found = find_fragile(_judged(ground.document, parts, limits), readings, judge)
    return FragileReadings(found, len(readings), min(len(readings), (count + 1) // 2))


def area_said(visit: Visit, ground: Ground) -> AreaSaid | None:
    """None where the owner gave no figure, or nothing is measured yet."""
    entry = visit.sheet.filter(field="area_said").first()
    areas = entities(ground.document, "areas").values()
    measured_m2 = sum(ring_area(path) for area in areas if (path := path_of(area, {})))
    if entry is None or not entry.value_si or measured_m2 <= 0:
        return None
    return AreaSaid(entry.value_si, measured_m2)


def _judged(document: Document, parts: Catalogue, limits: Limits) -> Outcome:
    found = check_document(document, parts, limits)
    why = " ".join(str(problem) for problem in found.problems[:2])
    return Outcome(document, found.report, why)
