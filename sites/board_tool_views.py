"""What the drawing board's tools ask: the wetting, a typed measure, heads for an area."""

from dataclasses import asdict

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.views.decorators.http import require_POST

from office.access import office_only, person_of
from parts.services import catalogue
from sites.access import get_site_for
from sites.board_body import BadBody, Body, document_in, json_body, text_in
from sites.board_place import NotPlaced, place_answer
from sites.board_wetting import NoWetting, wetting_answer
from sites.typed_measure import KINDS, MeasureRefused, head_part, read_measure

LONGEST_CODE, LONGEST_TEXT = 40, 200


@require_POST
@office_only
@json_body
def board_wetting(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """A picture of how much water falls where."""
    site = get_site_for(person_of(request), site_pk)
    try:
        return JsonResponse(wetting_answer(site, document_in(body)))
    except NoWetting as refusal:
        raise BadBody(str(refusal)) from None


@require_POST
@office_only
@json_body
def board_measure(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """One typed measure in SI, and a question where it fits another unit only."""
    site = get_site_for(person_of(request), site_pk)
    kind = next((known for known in KINDS if known == body.get("kind")), None)
    if kind is None:
        raise BadBody(f"“kind” must be one of {', '.join(KINDS)}.")
    part = head_part(catalogue(), text_in(body, "part", LONGEST_CODE))
    try:
        found = read_measure(kind, text_in(body, "text", LONGEST_TEXT), site.units, part)
    except MeasureRefused as refusal:
        raise BadBody(str(refusal)) from None
    return JsonResponse(asdict(found))


@require_POST
@office_only
@json_body
def board_place(request: HttpRequest, body: Body, site_pk: int) -> HttpResponse:
    """Heads for an area."""
    site = get_site_for(person_of(request), site_pk)
    document = document_in(body)
    asked = [text_in(body, name, LONGEST_CODE) for name in ("area", "part", "spacing")]
    try:
        return JsonResponse(place_answer(site, document, *asked))
    except NotPlaced as refusal:
        raise BadBody(str(refusal)) from None
