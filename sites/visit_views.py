"""Pages of a site visit: write down, look, correct; and the arithmetic while typing."""

from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from parts.services import catalogue
from sites import services
from sites.access import get_site_for, get_visit_for
from sites.arithmetic import work_out
from sites.draft_readings import has_other_readings, put_readings
from sites.drafts import drawing_for
from sites.errors import PlanRefused, VisitRefused
from sites.limit_services import company_limits
from sites.models import Site, Visit
from sites.plausibility import judge_visit
from sites.visit_columns import data_of
from sites.visit_page import VisitPage, with_one_more


@require_safe
@office_only
def visit_detail(request: HttpRequest, pk: int) -> HttpResponse:
    visit = get_visit_for(person_of(request), pk)
    data = data_of(visit)
    rows = dict(enumerate(data.buckets))
    worked = work_out(data, rows, visit.site.units, parts=catalogue(), limits=company_limits())
    context = {
        "visit": visit,
        "site": visit.site,
        "data": data,
        "meter": catalogue().get(visit.meter),
        "buckets": [(bucket, worked.rows[place]) for place, bucket in enumerate(data.buckets)],
        "worked": worked,
        "board_differs": has_other_readings(_drawn(request, visit), visit),
    }
    return render(request, "sites/visit.html", context)


def _drawn(request: HttpRequest, visit: Visit) -> dict[str, Any]:
    return drawing_for(site=visit.site, person=person_of(request)).document


@require_POST
@office_only
def visit_board(request: HttpRequest, pk: int) -> HttpResponse:
    """Take the readings into what is being drawn, and go there."""
    visit = get_visit_for(person_of(request), pk)
    try:
        put_readings(person=person_of(request), visit=visit)
    except PlanRefused as refusal:
        messages.error(request, " ".join(problem.sentence for problem in refusal.problems))
        return redirect("sites:visit", pk=visit.pk)
    messages.success(request, "The readings of this visit are on the drawing board.")
    return redirect("sites:board", site_pk=visit.site_id)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def visit_add(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    if request.method == "POST":
        return _posted(request, site, None)
    page = VisitPage(site)
    page.form.initial["measured_by"] = person_of(request).name
    return _render(request, page)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def visit_edit(request: HttpRequest, pk: int) -> HttpResponse:
    visit = get_visit_for(person_of(request), pk)
    if request.method == "POST":
        return _posted(request, visit.site, visit)
    page = VisitPage(visit.site, visit=visit)
    page.show_questions(judge_visit(data_of(visit), timezone.localdate(), page.parts).questions)
    return _render(request, page)


@require_POST
@office_only
def visit_arithmetic(request: HttpRequest, site_pk: int) -> HttpResponse:
    """What the readings say so far, for the outputs of the form; nothing is kept."""
    page = VisitPage(get_site_for(person_of(request), site_pk), request.POST)
    context = {"page": page, "worked": page.worked(), "remarks": page.remarks_so_far()}
    return render(request, "sites/_arithmetic.html", context)


def _posted(request: HttpRequest, site: Site, visit: Visit | None) -> HttpResponse:
    if kind := request.POST.get("add"):
        return _render(request, VisitPage(site, with_one_more(request.POST, kind), visit))
    page = VisitPage(site, request.POST, visit)
    if "work_out" in request.POST:
        return _render(request, page)
    if not page.is_valid():
        return _render(request, page, status=422)
    try:
        saved = services.save_visit(
            page.data(),
            site=site,
            visit=visit,
            began_from=page.form.cleaned_data["began_from"] or 0,
            confirmed=page.confirmed,
            by=person_of(request),
        )
    except VisitRefused as refusal:
        page.show_refusals(refusal.refusals)
        page.show_questions(judge_visit(page.data(), timezone.localdate(), page.parts).questions)
        return _render(request, page, status=422)
    except Clash as clash:
        return _clash(request, page, cast(Visit, clash.current))
    messages.success(request, "The visit is kept.")
    return redirect("sites:visit", pk=saved.pk)


def _clash(request: HttpRequest, page: VisitPage, current: Visit) -> HttpResponse:
    stored = VisitPage(page.site, visit=current)
    rows = clash_rows(page.form, stored.form)
    for kind, form_set in page.rows.items():
        for mine, theirs in zip(form_set.forms, stored.rows[kind].forms, strict=False):
            rows += clash_rows(mine, theirs)
    data = request.POST.copy()
    data["began_from"] = str(current.version)
    again = VisitPage(page.site, data, page.visit)
    return _render(request, again, status=409, clash=rows, stored=current)


def _render(request: HttpRequest, page: VisitPage, status: int = 200, **more: Any) -> HttpResponse:
    context = {"page": page, "site": page.site, "visit": page.visit, "worked": page.worked(), **more}
    if status == 422:
        context["to_look_at"] = page.to_look_at()
    return render(request, "sites/visit_edit.html", context, status=status)
