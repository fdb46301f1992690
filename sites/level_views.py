"""The heights of a visit: write down, work out, keep, and put on the drawing board."""

from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from sites.access import get_visit_for
from sites.drafts import put_ground
from sites.errors import DraftClash, PlanRefused, SurveyRefused
from sites.level_page import LevelPage, with_more_rows
from sites.models import GroundSurvey, Visit
from sites.survey_services import save_survey


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def levels(request: HttpRequest, pk: int) -> HttpResponse:
    visit = get_visit_for(person_of(request), pk)
    if request.method != "POST":
        return _render(request, LevelPage(visit))
    if kind := request.POST.get("add"):
        return _render(request, LevelPage(visit, with_more_rows(request.POST, kind)))
    page = LevelPage(visit, request.POST)
    if "work_out" in request.POST:
        return _render(request, page)
    if not page.is_valid():
        return _render(request, page, status=422)
    return _save(request, visit, page)


@require_POST
@office_only
def levels_board(request: HttpRequest, pk: int) -> HttpResponse:
    """Put the kept heights into this person's drawing."""
    visit = get_visit_for(person_of(request), pk)
    page = LevelPage(visit)
    if not page.levels:
        refused = "No point has both a place and a height yet, so there is nothing to put on the board."
        return _render(request, page, status=422, refused=refused)
    ground = {"levels": [level.model_dump(mode="json") for level in page.levels]}
    try:
        put_ground(site=visit.site, person=person_of(request), ground=ground)
    except (PlanRefused, DraftClash) as refusal:
        return _render(request, page, status=422, refused=str(refusal))
    count = len(page.levels)
    words = "1 height is" if count == 1 else f"{count} heights are"
    messages.success(request, f"{words} on your drawing board.")
    return redirect("sites:levels", pk=visit.pk)


def _save(request: HttpRequest, visit: Visit, page: LevelPage) -> HttpResponse:
    began_from = request.POST.get("began_from", "")
    try:
        save_survey(
            visit=visit,
            part="levels",
            document=page.document(),
            began_from=int(began_from) if began_from.isdecimal() and len(began_from) < 10 else 0,
            by=person_of(request),
        )
    except SurveyRefused as refusal:
        return _render(request, page, status=422, refused=str(refusal))
    except Clash as clash:
        return _clash(request, page, cast(GroundSurvey, clash.current))
    messages.success(request, "The heights are kept.")
    return redirect("sites:levels", pk=visit.pk)


def _clash(request: HttpRequest, page: LevelPage, current: GroundSurvey) -> HttpResponse:
    theirs = LevelPage(page.visit, stored=current.levels)
    rows = []
    for kind, form_set in page.rows.items():
        for mine, other in zip(
            form_set.forms, _as_many(theirs.rows[kind].forms, form_set.forms), strict=True
        ):
            rows += clash_rows(mine, other)
    page.began_from = current.version
    return _render(request, page, status=409, clash=rows)


def _as_many(theirs: list[Any], mine: list[Any]) -> list[Any]:
    """Their rows as far as there are some, then empty ones."""
    empty = [type(form)(system=form.system, prefix=form.prefix) for form in mine[len(theirs) :]]
    return [*theirs, *empty][: len(mine)]


def _render(request: HttpRequest, page: LevelPage, status: int = 200, **more: Any) -> HttpResponse:
    context = {"page": page, "visit": page.visit, "site": page.visit.site, **more}
    if status == 422:
        context["to_look_at"] = page.to_look_at()
    return render(request, "sites/levels.html", context, status=status)
