"""A plan revision as a file: the document, the drawing, a case for EPANET, and for other programs."""

from django.http import Http404, HttpRequest, HttpResponse
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from design.canonical import plan_text
from design.drawing import DrawingOptions
from design.epanet_export import UnknownCase, export_case
from design.exchange.dxf_out import dxf_text_of
from design.exchange.geojson_out import geojson_text
from design.exchange.pdf_out import SHEETS, SheetWords, TooLarge, plan_pdf
from design.problems import PlanInvalid
from hydraulics.errors import HydraulicsError
from office.access import office_only, person_of
from office.company import get_company
from parts.services import catalogue
from sites.access import get_plan_for
from sites.check import plan_of
from sites.limit_services import company_limits
from sites.models import PlanRevision
from sites.origin import BadOrigin, read_origin
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


@require_safe
@office_only
def plan_geojson(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    """In site metres; with ``origin=latitude,longitude`` of the site's zero, in degrees."""
    revision = get_plan_for(person_of(request), site_pk, number)
    try:
        origin = read_origin(request.GET.get("origin", ""))
    except BadOrigin as error:
        return HttpResponse(f"{error}\n", status=422, content_type="text/plain; charset=utf-8")
    text = geojson_text(plan_of(revision), origin)
    return _file(text, "application/geo+json", f"{_name(revision)}.geojson")


@require_safe
@office_only
def plan_dxf(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    revision = get_plan_for(person_of(request), site_pk, number)
    return _file(dxf_text_of(plan_of(revision)), "image/vnd.dxf", f"{_name(revision)}.dxf")


@require_safe
@office_only
def plan_sheet(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    """The drawing to scale on the sheet named by ``sheet``: a4, a3 or letter."""
    revision = get_plan_for(person_of(request), site_pk, number)
    page = PlanPage(revision)
    sheet = request.GET.get("sheet") or ("letter" if page.units == "us" else "a4")
    if sheet not in SHEETS:
        raise Http404("There is no such sheet.")
    options = DrawingOptions(units=page.units, parts=catalogue(), title=str(revision))
    try:
        content = plan_pdf(page.plan, page.report, options, sheet, _sheet_words(revision))
    except TooLarge as error:
        return HttpResponse(f"{error}\n", status=422, content_type="text/plain; charset=utf-8")
    answer = HttpResponse(content, content_type="application/pdf")
    answer["Content-Disposition"] = f'attachment; filename="{_name(revision)}-{sheet}.pdf"'
    return answer


def _sheet_words(revision: PlanRevision) -> SheetWords:
    name = f": {revision.name}" if revision.name else ""
    saved = f"Plan, revision {revision.number}{name}, saved {revision.made_at:%Y-%m-%d}"
    return SheetWords(revision.site.name, (f"{revision.site.customer.name} · {get_company().name}", saved))


def _name(revision: PlanRevision) -> str:
    return f"{slugify(revision.site.name) or 'site'}-plan-{revision.number}"


def _file(text: str, content_type: str, name: str) -> HttpResponse:
    answer = HttpResponse(text, content_type=f"{content_type}; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer
