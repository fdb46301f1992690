"""Pages of the measured ground: type readings, look at the plan that they give, hand it to the board."""

from itertools import zip_longest
from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from design.survey.ground import ground_of, sides_of
from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import ClashRow
from sites.access import get_visit_for
from sites.drafts import put_ground
from sites.errors import PlanRefused, SurveyRefused
from sites.models import GroundSurvey, Visit
from sites.survey_doubts import doubts_about
from sites.survey_drawing import draw_survey
from sites.survey_page import SurveyPage, plane_of, with_one_more, worked
from sites.survey_services import save_survey, survey_of
from sites.survey_words import lines_of, said_of


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def survey_edit(request: HttpRequest, pk: int) -> HttpResponse:
    visit = get_visit_for(person_of(request), pk)
    stored = survey_of(visit)
    if request.method != "POST":
        return _render(request, SurveyPage(visit, stored))
    if kind := request.POST.get("add"):
        return _render(request, SurveyPage(visit, stored, with_one_more(request.POST, kind)))
    return _saved(request, SurveyPage(visit, stored, request.POST))


@require_POST
@office_only
def survey_live(request: HttpRequest, pk: int) -> HttpResponse:
    """The plan and what the readings say so far; nothing is kept."""
    visit = get_visit_for(person_of(request), pk)
    page = SurveyPage(visit, survey_of(visit), request.POST)
    return render(request, "sites/_survey_live.html", {**_context(page), "live": True})


def _saved(request: HttpRequest, page: SurveyPage) -> HttpResponse:
    if not page.is_valid():
        return _render(request, page, status=422)
    try:
        saved = save_survey(
            visit=page.visit,
            part="plane",
            document=page.document(),
            began_from=page.began_from,
            by=person_of(request),
        )
    except SurveyRefused as refusal:
        page.problems = list(refusal.problems)
        return _render(request, page, status=422)
    except Clash as clash:
        return _clash(request, page, cast(GroundSurvey, clash.current))
    if "put" in request.POST:
        return _put(request, page.visit, saved)
    messages.success(request, "The readings are kept.")
    if _asks(page):
        messages.warning(request, "One or more of them do not fit the others: see the question beside each.")
    return redirect("sites:survey", pk=page.visit.pk)


def _asks(page: SurveyPage) -> bool:
    """Whether a doubt is open that nobody has answered."""
    survey, result = worked(page)
    doubts = doubts_about(survey, result, page.site.units)
    return any(doubt.token not in page.confirmed for doubt in doubts)


def _put(request: HttpRequest, visit: Visit, saved: GroundSurvey) -> HttpResponse:
    """What was just kept goes to the board, once every doubt about it is answered."""
    page = SurveyPage(visit, saved)
    survey, result = worked(page)
    if _asks(page):
        return _render(request, page, status=422, kept=True)
    try:
        put_ground(
            site=visit.site, person=person_of(request), ground=ground_of(result, survey),
            outdated=sides_of(survey),
        )  # fmt: skip
    except PlanRefused as refusal:
        page.problems = list(refusal.problems)
        return _render(request, page, status=422)
    messages.success(request, "The measured ground is on the drawing board.")
    return redirect("sites:board", site_pk=visit.site_id)


def _clash(request: HttpRequest, page: SurveyPage, current: GroundSurvey) -> HttpResponse:
    theirs, mine = lines_of(plane_of(current)), lines_of(page.survey())
    rows = [
        ClashRow(f"{kind} {number}", old or "—", new or "—")
        for kind in theirs
        for number, (old, new) in enumerate(zip_longest(theirs[kind], mine[kind]), start=1)
        if old != new
    ]
    data = request.POST.copy()
    data["began_from"] = str(current.version)
    return _render(request, SurveyPage(page.visit, current, data), status=409, clash=rows)


def _render(request: HttpRequest, page: SurveyPage, status: int = 200, **more: Any) -> HttpResponse:
    context = {**_context(page), "problems": page.problems, **more}
    if status == 422:
        context["to_look_at"] = page.to_look_at()
    return render(request, "sites/survey.html", context, status=status)


def _context(page: SurveyPage) -> dict[str, Any]:
    survey, result = worked(page)
    page.show_notes(result)
    doubts = doubts_about(survey, result, page.site.units)
    page.show_questions(doubts)
    return {
        "page": page,
        "visit": page.visit,
        "site": page.site,
        "result": result,
        "doubts": doubts,
        "said": said_of(survey, result),
        "drawing": draw_survey(survey, result, page.site.units, tapes=page.shows_tapes),
    }
