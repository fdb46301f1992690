"""The drawing board: its page, and what its scripts ask."""

import time
from dataclasses import asdict
from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from office.access import office_only, person_of
from sites.access import get_site_for
from sites.board_body import BadBody, Body, check_person, count_in, document_in, json_body, text_in
from sites.board_check import check_drawing
from sites.board_page import board_data
from sites.drafts import Drawing, save_draft
from sites.errors import DraftClash, PlanClash, PlanRefused
from sites.keeping import discard_drawing, keep_drawing
from sites.models import PlanDraft, Site

NAME_LENGTH = 120


@require_safe
@office_only
def board(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    return render(request, "sites/board.html", {"site": site, "board": board_data(site, person_of(request))})


@require_POST
@office_only
@json_body
def board_check(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """What the check says of the document, finished or not."""
    began = time.perf_counter()
    site = get_site_for(person_of(request), site_pk)
    found = check_drawing(site, document_in(body), body.get("before"))
    return JsonResponse({**found, "server_ms": round(1000 * (time.perf_counter() - began))})


@require_POST
@office_only
@json_body
def board_draft(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """Keep what is drawn as this person's draft."""
    check_person(body, person_of(request).pk)
    site = get_site_for(person_of(request), site_pk)
    try:
        draft = save_draft(site=site, person=person_of(request), **drawn_in(body))
    except DraftClash as clash:
        return _draft_clash(clash)
    except (PlanRefused, ValidationError) as error:
        raise BadBody(_sentence(error)) from None
    return JsonResponse(_kept(draft))


@require_POST
@office_only
@json_body
def board_keep(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """Keep what is drawn as the next revision of the plan."""
    check_person(body, person_of(request).pk)
    person = person_of(request)
    site = get_site_for(person, site_pk)
    try:
        revision = keep_drawing(site=site, person=person, drawn=Drawing(**drawn_in(body)))
    except DraftClash as clash:
        return _draft_clash(clash)
    except PlanClash as clash:
        return JsonResponse(_plan_clash(site, clash), status=409)
    except PlanRefused as refusal:
        return JsonResponse({"problems": [asdict(problem) for problem in refusal.problems]}, status=422)
    except ValidationError as error:
        problem = {"entity": "plan", "field": "name", "sentence": _sentence(error)}
        return JsonResponse({"problems": [problem]}, status=422)
    url = reverse("sites:plan", args=[site.pk, revision.number])
    return JsonResponse({"number": revision.number, "url": url}, status=201)


@require_POST
@office_only
@json_body
def board_discard(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """Throw the draft away; the board then opens with the newest revision."""
    check_person(body, person_of(request).pk)
    site = get_site_for(person_of(request), site_pk)
    try:
        discard_drawing(site=site, person=person_of(request), draft_version=count_in(body, "draft_version"))
    except DraftClash as clash:
        return _draft_clash(clash)
    return JsonResponse({"url": reverse("sites:board", args=[site.pk])})


def drawn_in(body: Body) -> dict[str, Any]:
    """The fields that draft and keep share. Raises BadBody."""
    return {
        "document": document_in(body),
        "began_from": count_in(body, "began_from"),
        "draft_version": count_in(body, "draft_version"),
        "name": text_in(body, "name", NAME_LENGTH),
    }


def _draft_clash(clash: DraftClash) -> HttpResponse:
    stored = clash.current
    answer = {"detail": str(clash), "document": stored.document, **_kept(stored)}
    return JsonResponse(answer, status=409)


def _plan_clash(site: Site, clash: PlanClash) -> dict[str, Any]:
    newest = clash.latest
    return {
        "detail": f"{clash} Yours is kept; look at both.",
        "clash_url": reverse("sites:board-clash", args=[site.pk]),
        "number": newest.number if newest else None,
        "made_by": str(newest.made_by or "") if newest else "",
        "made_at": newest.made_at.isoformat() if newest else None,
    }


def _kept(draft: PlanDraft) -> dict[str, Any]:
    return {"draft_version": draft.version, "saved_at": draft.changed_at.isoformat()}


def _sentence(error: Exception) -> str:
    return " ".join(error.messages) if isinstance(error, ValidationError) else str(error)
