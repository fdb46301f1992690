"""The readings of a visit in the drawing that somebody has begun before, or that a plan was drawn with."""

from typing import Any

from django.db import transaction

from office.models import Person
from sites.drafts import drawing_for, save_draft
from sites.models import PlanDraft, Site, Visit
from sites.plan_start import plan_from_visit, with_readings


def has_other_readings(drawn: dict[str, Any], visit: Visit) -> bool:
    """Whether the drawing's supply says something else than what the visit read."""
    return _with(drawn, visit).get("supply") != drawn.get("supply")


@transaction.atomic
def put_readings(*, person: Person, visit: Visit) -> PlanDraft:
    """Take the visit's readings into the person's drawing; where the supply stands, and all else, stays.

    Raises PlanRefused.
    """
    Site.objects.select_for_update().get(pk=visit.site_id)
    drawing = drawing_for(site=visit.site, person=person)
    return save_draft(
        site=visit.site,
        person=person,
        document=_with(drawing.document, visit),
        began_from=drawing.began_from,
        draft_version=drawing.draft_version,
        name=drawing.name,
    )


def _with(drawn: dict[str, Any], visit: Visit) -> dict[str, Any]:
    if drawn.get("supply"):
        return with_readings(drawn, visit)
    return {**drawn, "supply": plan_from_visit(visit)["supply"]}
