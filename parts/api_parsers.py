"""JSON bodies of the API: bounded in size and depth, and of text that every database can store."""

import json
from collections import Counter
from collections.abc import Mapping
from typing import IO, Any

from django.core.exceptions import RequestDataTooBig
from rest_framework import status
from rest_framework.exceptions import APIException, ParseError
from rest_framework.parsers import JSONParser
from rest_framework.response import Response
from rest_framework.views import APIView

MAX_BYTES = 2_500_000


class BodyTooLarge(APIException):
    status_code = status.HTTP_413_REQUEST_ENTITY_TOO_LARGE
    default_detail = "The body is larger than 2.5 MB."
    default_code = "too_large"


class BoundedJSONParser(JSONParser):
    """Refuses with 4xx what would fail deeper down: too large, deep, NUL, half letters, names twice."""

    def parse(
        self, stream: IO[Any], media_type: str | None = None, parser_context: Mapping[str, Any] | None = None
    ) -> Any:
        raw = stream.read(MAX_BYTES + 1)
        if len(raw) > MAX_BYTES:
            raise BodyTooLarge
        try:
            value = json.loads(
                raw.decode("utf-8"), parse_constant=_refuse_constant, object_pairs_hook=_refuse_repeats
            )
            text = json.dumps(value, ensure_ascii=False, allow_nan=False)
            text.encode("utf-8")
        except (ValueError, RecursionError) as error:
            raise ParseError(f"This is not JSON that can be stored: {str(error)[:200]}") from None
        if "\\u0000" in text:
            raise ParseError("The text holds a NUL character; remove it.")
        return value


def _refuse_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        twice = Counter(name for name, _ in pairs).most_common(1)[0][0]
        raise ValueError(f"“{twice[:40]}” is given twice; keep one")
    return found


def _refuse_constant(name: str) -> None:
    raise ValueError(f"{name} is no number")


class BoundedBody(APIView):
    """Mixin of API views: takes bounded JSON, and says 413 where the server refused the size itself."""

    parser_classes = [BoundedJSONParser]

    def handle_exception(self, exc: Exception) -> Response:
        if isinstance(exc, RequestDataTooBig):
            exc = BodyTooLarge()
        return super().handle_exception(exc)
