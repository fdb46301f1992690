"""The picture of how much water falls where on a plan revision."""

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from design.coverage_picture import coverage_drawing
from design.drawing import DrawingOptions, to_svg
from design.drawing.options import Units
from design.site import Site
from office.access import office_only, person_of
from parts.services import catalogue
from sites.access import get_plan_for
from sites.check import check_revision, plan_of
from sites.errors import CheckFailed
from sites.limit_services import company_limits

# its words can be read on a phone, where it is 360 pixels wide
PAGE_WIDTH, TEXT_SIZE = 400, 13


@require_safe
@office_only
def plan_wetting(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    """An SVG file; missing where the plan cannot be checked or nothing sprays."""
    revision = get_plan_for(person_of(request), site_pk, number)
    units: Units = "us" if revision.site.units == "us" else "metric"
    limits = company_limits()
    try:
        report = check_revision(revision, limits)
    except CheckFailed as failure:
        raise Http404(str(failure)) from None
    options = DrawingOptions(width=PAGE_WIDTH, text_size=TEXT_SIZE, units=units, title=f"Water on {revision}")
    drawing = coverage_drawing(Site(plan_of(revision), catalogue(), limits), report, options)
    if drawing is None:
        raise Http404("Nothing on this plan sprays.")
    return HttpResponse(to_svg(drawing), content_type="image/svg+xml; charset=utf-8")
