"""The plan as a map to tap on: its drawing, and how a place on the drawing becomes metres."""

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from design.document import Plan
from design.drawing import DrawingOptions, plan_drawing, to_svg
from design.drawing.frame import Frame, fit_frame, plan_points
from design.loading import load_plan
from design.problems import PlanInvalid
from office.models import Person
from sites.drafts import drawing_for
from sites.models import Site
from sites.plan_services import latest_revision

# Without the wetting the frame is that of the plan's own points.
_LAYERS = frozenset({"ground", "services", "marks", "devices", "labels", "scale"})
_LEAST_SPAN_M = 3.0


@dataclass(frozen=True)
class PhotoMap:
    svg: SafeString
    frame: Frame


def photo_map(site: Site, person: Person) -> PhotoMap | None:
    """What this person draws, else the newest revision; None where there is no ground yet to point at."""
    plan = _plan_of(site, person)
    if plan is None:
        return None
    points = plan_points(plan)
    spans = [max(values) - min(values) for values in zip(*points, strict=True)]
    if max(spans) < _LEAST_SPAN_M:
        return None
    options = DrawingOptions(
        layers=_LAYERS, units="us" if site.units == "us" else "metric", plain=True, title=f"Plan of {site}",
    )  # fmt: skip
    svg = to_svg(plan_drawing(plan, None, options))
    return PhotoMap(mark_safe(svg), fit_frame(points, options.width, options.max_height))  # noqa: S308 - the drawing escapes all text


def _plan_of(site: Site, person: Person) -> Plan | None:
    newest = latest_revision(site)
    for document in (drawing_for(site=site, person=person).document, newest.document if newest else None):
        try:
            if document is not None:
                return load_plan(document)
        except PlanInvalid:
            continue  # still being drawn
    return None
