"""Drawing over a picture: choose or send one, work out, keep, put on the drawing board."""

from typing import Any, cast

from django.contrib import messages
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from hydraulics.sentences import in_units_of
from office.access import office_only, person_of
from office.models import Person
from office.versions import Clash
from sites.access import get_picture_for, get_visit_for
from sites.board_body import Body, count_in, json_body
from sites.errors import DraftClash, PictureRefused, PlanRefused, SurveyRefused
from sites.ground_places import ground_places
from sites.models import GroundSurvey, Picture, Visit
from sites.picture_services import keep_picture
from sites.survey_services import survey_of
from sites.trace_body import read_trace, shown_trace
from sites.trace_page import refused, summary, trace_data, worked
from sites.trace_services import checked_trace, put_trace, save_trace, trace_of


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def trace(request: HttpRequest, pk: int) -> HttpResponse:
    """The picture to draw over; a POST sends another one."""
    visit = get_visit_for(person_of(request), pk)
    if request.method == "POST":
        return _taken_in(request, visit)
    chosen = request.GET.get("picture", "")
    return _page(request, visit, _chosen(person_of(request), visit, chosen) if chosen else None)


@require_POST
@office_only
@json_body
def trace_work(request: HttpRequest, body: Body, pk: int) -> HttpResponse:
    """What the drawing gives in metres; nothing is kept."""
    visit = get_visit_for(person_of(request), pk)
    picture = _picture_in(body, person_of(request), visit)
    try:
        found = checked_trace(read_trace(body.get("trace"), picture, visit.site.units))
    except SurveyRefused as refusal:
        return JsonResponse(refused(refusal.problems), status=422)
    return JsonResponse(worked(found, ground_places(visit).points, visit.site.units))


@require_POST
@office_only
@json_body
def trace_save(request: HttpRequest, body: Body, pk: int) -> HttpResponse:
    visit = get_visit_for(person_of(request), pk)
    picture, began_from = _picture_in(body, person_of(request), visit), count_in(body, "began_from")
    try:
        mine = read_trace(body.get("trace"), picture, visit.site.units)
        saved = save_trace(visit=visit, trace=mine, began_from=began_from, by=person_of(request))
    except SurveyRefused as refusal:
        return JsonResponse(refused(refusal.problems), status=422)
    except Clash as clash:
        return _clash(cast(GroundSurvey, clash.current), picture, mine)
    said = worked(checked_trace(mine), ground_places(visit).points, visit.site.units)
    return JsonResponse({**said, "began_from": saved.version})


@require_POST
@office_only
def trace_board(request: HttpRequest, pk: int) -> HttpResponse:
    """Put the kept outlines of a picture into this person's drawing."""
    person = person_of(request)
    visit = get_visit_for(person, pk)
    picture = _chosen(person, visit, request.POST.get("picture", ""))
    places = ground_places(visit).points
    try:
        count = put_trace(visit=visit, picture=picture, places=places, person=person)
    except SurveyRefused as refusal:
        sentences = in_units_of(visit.site.units, " ".join(problem.sentence for problem in refusal.problems))
        return _page(request, visit, picture, status=422, refused=sentences)
    except (PlanRefused, DraftClash) as refusal:
        return _page(request, visit, picture, status=422, refused=str(refusal))
    word = "outline is" if count == 1 else "outlines are"
    messages.success(request, f"{count} {word} on your drawing board.")
    return redirect(_address(visit, picture))


def _taken_in(request: HttpRequest, visit: Visit) -> HttpResponse:
    upload = request.FILES.get("picture")
    if upload is None:
        return _page(request, visit, None, status=422, upload_error="Choose a picture first.")
    try:
        picture = keep_picture(site=visit.site, upload=upload, by=person_of(request))
    except PictureRefused as refusal:
        return _page(request, visit, None, status=422, upload_error=str(refusal))
    return redirect(_address(visit, picture))


def _clash(current: GroundSurvey, picture: Picture, mine: dict[str, Any]) -> HttpResponse:
    theirs = trace_of(current, picture.pk)
    answer = {
        "detail": "Somebody else saved this ground while you were drawing. Nothing of yours is lost.",
        "began_from": current.version,
        "theirs": shown_trace(theirs),
        "their_summary": summary(theirs),
        "my_summary": summary(mine),
    }
    return JsonResponse(answer, status=409)


def _page(
    request: HttpRequest, visit: Visit, picture: Picture | None, status: int = 200, **more: Any
) -> HttpResponse:
    context: dict[str, Any] = {
        "visit": visit, "site": visit.site, "picture": picture, "pictures": _pictures(visit), **more,
    }  # fmt: skip
    if picture is not None:
        context["trace"] = trace_data(visit, picture, survey_of(visit), ground_places(visit).points)
    return render(request, "sites/trace.html", context, status=status)


def _pictures(visit: Visit) -> QuerySet[Picture]:
    return Picture.objects.filter(site_id=visit.site_id).defer("data", "small")


def _picture_in(body: Body, person: Person, visit: Visit) -> Picture:
    return _of_site(get_picture_for(person, count_in(body, "picture")), visit)


def _chosen(person: Person, visit: Visit, text: str) -> Picture:
    if not (text.isascii() and text.isdecimal() and len(text) < 10):
        raise Http404("There is no such picture.")
    return _of_site(get_picture_for(person, int(text)), visit)


def _of_site(picture: Picture, visit: Visit) -> Picture:
    if picture.site_id != visit.site_id:
        raise Http404("There is no such picture.")
    return picture


def _address(visit: Visit, picture: Picture) -> str:
    return f"{reverse('sites:trace', args=[visit.pk])}?picture={picture.pk}"
