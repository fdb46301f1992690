"""The drawing board: its page, and what its scripts ask."""

from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST, require_safe

from office.access import office_only, person_of
from sites.access import get_site_for
from sites.board_body import BadBody, Body, count_in, document_in, json_body, text_in
from sites.board_page import board_data
from sites.drafts import save_draft
from sites.errors import DraftClash, PlanRefused

NAME_LENGTH = 120


@require_safe
@office_only
def board(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    return render(request, "sites/board.html", {"site": site, "board": board_data(site, person_of(request))})


@require_POST
@office_only
@json_body
def board_draft(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """Keep what is drawn as this person's draft."""
    site = get_site_for(person_of(request), site_pk)
    try:
        draft = save_draft(site=site, person=person_of(request), **drawn_in(body))
    except DraftClash as clash:
        stored = clash.current
        answer = {
            "detail": str(clash),
            "document": stored.document,
            **_kept(stored.version, stored.changed_at),
        }
        return JsonResponse(answer, status=409)
    except (PlanRefused, ValidationError) as error:
        raise BadBody(_sentence(error)) from None
    return JsonResponse(_kept(draft.version, draft.changed_at))


def drawn_in(body: Body) -> dict[str, Any]:
    """The fields that draft and keep share. Raises BadBody."""
    return {
        "document": document_in(body),
        "began_from": count_in(body, "began_from"),
        "draft_version": count_in(body, "draft_version"),
        "name": text_in(body, "name", NAME_LENGTH),
    }


def _kept(version: int, at: Any) -> dict[str, Any]:
    return {"draft_version": version, "saved_at": at.isoformat()}


def _sentence(error: Exception) -> str:
    return " ".join(error.messages) if isinstance(error, ValidationError) else str(error)
