"""Pages of plan revisions: look, bring in, edit, and take away as a file."""

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from design.canonical import dump_plan
from design.loading import load_plan
from design.problems import PlanInvalid, Problem
from office.access import office_only, person_of
from sites import services
from sites.access import get_plan_for, get_site_for, get_visit_for
from sites.check import plan_of
from sites.errors import PlanClash, PlanRefused
from sites.models import Site
from sites.panels import site_panels
from sites.plan_difference import differences, line_differences
from sites.plan_forms import PlanFileForm, PlanTextForm
from sites.plan_layout_text import editable_text
from sites.plan_page import PlanPage
from sites.plan_services import latest_revision
from sites.plan_start import plan_from_visit, with_readings


@require_safe
@office_only
def plan_detail(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    revision = get_plan_for(person_of(request), site_pk, number)
    hidden, marked = frozenset(request.GET.getlist("hide")), frozenset(request.GET.getlist("mark"))
    newest = latest_revision(revision.site)
    context = {
        "page": PlanPage(revision, hidden, marked),
        "revision": revision,
        "site": revision.site,
        "newest": newest,
        "is_newest": newest == revision,
        "panels": site_panels(person_of(request), revision.site) if newest == revision else [],
    }
    return render(request, "sites/plan.html", context)


@require_safe
@office_only
def plan_edit(request: HttpRequest, site_pk: int, number: int) -> HttpResponse:
    """The text of a revision; saving it makes the next one."""
    revision = get_plan_for(person_of(request), site_pk, number)
    initial = {
        "began_from": number,
        "name": revision.name,
        "document": editable_text(dump_plan(plan_of(revision))),
    }
    return _text_page(request, revision.site, PlanTextForm(initial=initial))


@require_safe
@office_only
def plan_start(request: HttpRequest, visit_pk: int) -> HttpResponse:
    """The text of a plan whose supply is what the visit measured."""
    visit = get_visit_for(person_of(request), visit_pk)
    newest = latest_revision(visit.site)
    document = with_readings(newest.document, visit) if newest else plan_from_visit(visit)
    initial = {
        "began_from": newest.number if newest else 0,
        "name": newest.name if newest else "",
        "document": editable_text(document),
    }
    return _text_page(request, visit.site, PlanTextForm(initial=initial), visit=visit)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def plan_import(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    newest = latest_revision(site)
    if request.method != "POST":
        form = PlanFileForm(initial={"began_from": newest.number if newest else 0})
        return render(request, "sites/plan_import.html", {"form": form, "site": site})
    form = PlanFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return render(request, "sites/plan_import.html", {"form": form, "site": site}, status=422)
    try:
        text = form.cleaned_data["file"].read().decode("utf-8-sig")
    except UnicodeDecodeError:
        form.add_error("file", "That file is not UTF-8 text; save it as UTF-8.")
        return render(request, "sites/plan_import.html", {"form": form, "site": site}, status=422)
    typed = {name: form.cleaned_data[name] for name in ("began_from", "name")}
    return _save(request, site, PlanTextForm({**typed, "document": text}))


@require_POST
@office_only
def plan_save(request: HttpRequest, site_pk: int) -> HttpResponse:
    """Keep the posted text as the next revision."""
    site = get_site_for(person_of(request), site_pk)
    return _save(request, site, PlanTextForm(request.POST))


def _save(request: HttpRequest, site: Site, form: PlanTextForm) -> HttpResponse:
    if not form.is_valid():
        return _text_page(request, site, form, status=422)
    data = form.cleaned_data
    try:
        revision = services.add_plan_revision(
            site=site,
            document=data["document"],
            began_from=data["began_from"],
            name=data["name"],
            by=person_of(request),
        )
    except PlanRefused as refusal:
        return _text_page(request, site, form, status=422, problems=refusal.problems)
    except PlanClash as clash:
        return _clash_page(request, site, form, clash)
    except ValidationError as error:
        form.add_error(None, error)
        return _text_page(request, site, form, status=422)
    if revision.number == data["began_from"]:
        messages.info(request, f"Nothing differs from revision {revision.number}, so no new one was made.")
    else:
        messages.success(request, f"Kept as revision {revision.number}.")
    return redirect("sites:plan", site_pk=site.pk, number=revision.number)


def _clash_page(request: HttpRequest, site: Site, form: PlanTextForm, clash: PlanClash) -> HttpResponse:
    """Both versions, what differs, and what was typed ready to be saved as the next revision."""
    newest = clash.latest
    mine = _document(form.cleaned_data["document"])
    theirs = newest.document if newest else {}
    again = PlanTextForm({**form.cleaned_data, "began_from": newest.number if newest else 0})
    context = {
        "site": site,
        "form": again,
        "clash": clash,
        "newest": newest,
        "changes": differences(theirs, mine),
        "lines": line_differences(theirs, mine),
    }
    return render(request, "sites/plan_clash.html", context, status=409)


def _document(text: str) -> dict[str, Any]:
    try:
        return dump_plan(load_plan(text))
    except PlanInvalid:
        return {}


def _text_page(
    request: HttpRequest,
    site: Site,
    form: PlanTextForm,
    status: int = 200,
    problems: tuple[Problem, ...] = (),
    **more: Any,
) -> HttpResponse:
    context = {"site": site, "form": form, "problems": problems, **more}
    return render(request, "sites/plan_edit.html", context, status=status)
