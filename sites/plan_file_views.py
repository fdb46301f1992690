"""A plan revision as a file: the document, the drawing, a case for EPANET."""

from django.http import Http404, HttpRequest, HttpResponse
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from design.canonical import plan_text
from design.epanet_export import UnknownCase, export_case
from design.problems import PlanInvalid
from hydraulics.errors import HydraulicsError
from office.access import office_only, person_of
from parts.services import catalogue
from sites.access import get_plan_for
from sites.check import plan_of
from sites.limit_services import company_limits
from sites.models import PlanRevision
from sites.plan_page import PlanPage


@require_safe
@office_only
def plan_json(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    revision = get_plan_for(person_of(request), site_pk, number)
    return _file(plan_text(plan_of(revision)), "application/json", f"{_name(revision)}.json")


@require_safe
@office_only
def plan_svg(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    revision = get_plan_for(person_of(request), site_pk, number)
    page = PlanPage(revision, frozenset(request.GET.getlist("hide")))
    return _file(page.drawing, "image/svg+xml", f"{_name(revision)}.svg")


@require_safe
@office_only
def plan_case(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    """The case named by ``label``, as an EPANET input file."""
    revision = get_plan_for(person_of(request), site_pk, number)
    label = request.GET.get("label", "")
    try:
        text = export_case(plan_of(revision), catalogue(), label, company_limits())
    except UnknownCase as error:
        raise Http404(str(error)) from None
    except (PlanInvalid, HydraulicsError) as error:
        return HttpResponse(f"{error}\n", status=422, content_type="text/plain; charset=utf-8")
    return _file(text, "text/plain", f"{_name(revision)}-{slugify(label) or 'case'}.inp")


def _name(revision: PlanRevision) -> str:
    return f"{slugify(revision.site.name) or 'site'}-plan-{revision.number}"


def _file(text: str, content_type: str, name: str) -> HttpResponse:
    answer = HttpResponse(text, content_type=f"{content_type}; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer
