"""What the drawing board sends: JSON bodies read, bounded and judged field by field; answers as JSON."""

from collections.abc import Callable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, cast

from django.core.exceptions import RequestDataTooBig
from django.http import HttpRequest, HttpResponseBase, JsonResponse

from design.loading import MAX_BYTES, parse_object
from design.problems import PlanInvalid
from design.unfinished import load_unfinished
from sites.errors import SitesError

P = ParamSpec("P")
Body = dict[str, Any]
Reading = Callable[Concatenate[HttpRequest, Body, P], HttpResponseBase]
View = Callable[Concatenate[HttpRequest, P], HttpResponseBase]
TOO_LARGE = "What was sent is larger than 1 MB, which is more than one plan may be."
LARGEST_COUNT = 2_147_483_647  # what the database counts to


class BadBody(SitesError):
    """What was sent is not what this address takes; the message says why."""

    def __init__(self, sentence: str, status: int = 422) -> None:
        self.status = status
        super().__init__(sentence)


def json_body(view: Reading[P]) -> View[P]:
    """Gives the view the object that was sent; what cannot be taken is answered with ``detail``."""

    @wraps(view)
    def reading(request: HttpRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponseBase:
        try:
            return view(request, _object_in(request), *args, **kwargs)
        except BadBody as refusal:
            return JsonResponse({"detail": str(refusal)}, status=refusal.status)

    return cast(View[P], reading)


def check_person(body: Body, person_pk: int) -> None:
    """Raises BadBody where the page was opened by somebody else than who is logged in now."""
    if body.get("person", person_pk) != person_pk:
        raise BadBody("Somebody else is logged in now. Log in as yourself in another tab.", status=401)


def document_in(body: Body) -> dict[str, Any]:
    """The plan document, finished or not. Raises BadBody."""
    document = body.get("document")
    if not isinstance(document, dict):
        raise BadBody("The document is missing; it is one JSON object.")
    try:
        return load_unfinished(document)
    except PlanInvalid as error:
        raise BadBody(str(error)) from None


def count_in(body: Body, name: str) -> int:
    """A whole number from 0. Raises BadBody."""
    value = body.get(name)
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= LARGEST_COUNT:
        raise BadBody(f"“{name}” must be a whole number from 0.")
    return value


def text_in(body: Body, name: str, most: int) -> str:
    """A text that can be stored; empty where there is none. Raises BadBody."""
    value = body.get(name) or ""
    if not isinstance(value, str):
        raise BadBody(f"“{name}” must be text.")
    if len(value) > most:
        raise BadBody(f"“{name}” is too long; at most {most} characters are taken.")
    if "\x00" in value or any("\ud800" <= letter <= "\udfff" for letter in value):
        raise BadBody(f"“{name}” holds characters that cannot be stored.")
    return value.strip()


def _object_in(request: HttpRequest) -> Body:
    try:
        raw = request.body
    except RequestDataTooBig:
        raise BadBody(TOO_LARGE, 413) from None
    if len(raw) > MAX_BYTES:
        raise BadBody(TOO_LARGE, 413)
    try:
        return parse_object(raw)
    except PlanInvalid as error:
        raise BadBody(" ".join(problem.sentence for problem in error.problems)) from None
