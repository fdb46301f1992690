"""Where the named points of a visit's ground lie, and which areas are spoken of."""

from collections.abc import Mapping
from dataclasses import dataclass

from design.document import Plan
from design.report import XY
from design.survey.document import PlaneSurvey
from design.survey.reduce import reduce_plane
from sites.check import plan_of
from sites.models import Visit
from sites.plan_services import latest_revision
from sites.survey_services import survey_of


@dataclass(frozen=True)
class GroundPlaces:
    """Points by name, and areas by what they are called. The survey's win over the plan's."""

    points: Mapping[str, XY]
    areas: Mapping[str, tuple[XY, ...]]


def ground_places(visit: Visit) -> GroundPlaces:
    """What the plane survey placed; what it does not name comes from the newest plan's marks and areas."""
    points, areas = _of_plan(_newest_plan(visit))
    survey = survey_of(visit)
    plane = PlaneSurvey.model_validate(survey.plane if survey else {})
    found = reduce_plane(plane)
    measured = {
        plane.outlines[place].label or outline.id: outline.points
        for place, outline in found.outlines.items()
        if plane.outlines[place].becomes == "area"
    }
    return GroundPlaces({**points, **found.places}, measured or areas)


def _newest_plan(visit: Visit) -> Plan | None:
    revision = latest_revision(visit.site)
    return plan_of(revision) if revision else None


def _of_plan(plan: Plan | None) -> tuple[dict[str, XY], dict[str, tuple[XY, ...]]]:
    if plan is None:
        return {}, {}
    areas = {area.label or area.id: tuple(area.outline) for area in plan.ground.areas}
    return {mark.id: mark.at for mark in plan.ground.marks}, areas
