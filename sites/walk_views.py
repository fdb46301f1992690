"""The walk round a site: on the phone line by line, and on paper."""

from typing import cast

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from office.access import office_only, person_of
from office.versions import Clash
from sites.access import get_site_for, get_visit_for
from sites.errors import LineRefused
from sites.models import SheetEntry, Visit
from sites.walk_round.forms import LineForm
from sites.walk_round.line import Line
from sites.walk_round.lines import BY_KEY
from sites.walk_round.page import WalkPage
from sites.walk_round.paper import PaperSheet
from sites.walk_round.services import save_line, start_walk
from sites.walk_round.sheet import sheet_of


@require_safe
@office_only
def walk(request: HttpRequest, pk: int) -> HttpResponse:
    visit = get_visit_for(person_of(request), pk)
    return render(request, "sites/walk/walk.html", {"page": WalkPage(visit)})


@require_POST
@office_only
def walk_start(request: HttpRequest, site_pk: int) -> HttpResponse:
    person = person_of(request)
    visit = start_walk(site=get_site_for(person, site_pk), by=person)
    return redirect("sites:walk", pk=visit.pk)


@require_POST
@office_only
def walk_line(request: HttpRequest, pk: int, key: str) -> HttpResponse:
    """Keep one line: its fragment for htmx, else the page again."""
    visit = get_visit_for(person_of(request), pk)
    line = _line(key)
    before = sheet_of(visit)
    form = LineForm(line, visit.site.units, before.entries.get(key), request.POST)
    if not form.is_valid():
        return _refused(request, WalkPage(visit, form), line, 422)
    try:
        save_line(
            visit=visit, line=line, answer=form.answer(), by=person_of(request),
            began_from=form.cleaned_data["began_from"] or 0,
        )  # fmt: skip
    except LineRefused as refusal:
        form.show(refusal.remark)
        return _refused(request, WalkPage(visit, form), line, 422)
    except Clash as clash:
        stored = cast(SheetEntry, clash.current)
        form.begin_from(stored.version)
        return _refused(request, WalkPage(visit, form, stored), line, 409)
    if not getattr(request, "htmx", False):
        return redirect(f"{_address(visit)}#line-{key}")
    page = WalkPage(visit)
    context = {"page": page, "view": page.view(line), "turned": page.turned_over(before)}
    return render(request, "sites/walk/_kept.html", context)


@require_safe
@office_only
def walk_print(request: HttpRequest, pk: int) -> HttpResponse:
    visit = get_visit_for(person_of(request), pk)
    return render(request, "sites/walk/print.html", {"sheet": PaperSheet(visit.site, sheet_of(visit))})


@require_safe
@office_only
def walk_print_empty(request: HttpRequest, site_pk: int) -> HttpResponse:
    """The sheet with nothing filled in, for a site that nobody has visited."""
    site = get_site_for(person_of(request), site_pk)
    return render(request, "sites/walk/print.html", {"sheet": PaperSheet(site, None)})


def _line(key: str) -> Line:
    line = BY_KEY.get(key)
    if line is None or line.held:
        raise Http404("There is no such line.")
    return line


def _address(visit: Visit) -> str:
    return reverse("sites:walk", args=[visit.pk])


def _refused(request: HttpRequest, page: WalkPage, line: Line, status: int) -> HttpResponse:
    if getattr(request, "htmx", False):
        context = {"page": page, "view": page.view(line), "turned": []}
        return render(request, "sites/walk/_kept.html", context, status=status)
    return render(request, "sites/walk/walk.html", {"page": page, "refused": line}, status=status)
