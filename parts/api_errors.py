"""Answers of the API that are no success, and how its document describes them."""

from typing import Any

from django.core.exceptions import ValidationError
from drf_spectacular.utils import OpenApiResponse
from rest_framework import serializers, status
from rest_framework.exceptions import APIException

from office.versions import Clash


class DetailSerializer(serializers.Serializer[Any]):
    """An answer that is one sentence."""

    detail = serializers.CharField()


_SAID = {
    400: OpenApiResponse({"type": "object", "additionalProperties": {}}, "Field by field, what is wrong"),
    403: OpenApiResponse(DetailSerializer, "Not logged in, or not for your role"),
    404: OpenApiResponse(DetailSerializer, "No such thing, or not yours to see"),
    409: OpenApiResponse(
        {"type": "object", "additionalProperties": {}}, "Somebody else saved it since; the present version"
    ),
    422: OpenApiResponse(DetailSerializer, "It stands, but cannot be worked out"),
    413: OpenApiResponse(DetailSerializer, "The body is too large"),
}


def errors(*codes: int) -> dict[int, OpenApiResponse]:
    """Descriptions of those error answers, for ``extend_schema``; 403 and 404 are always there."""
    return {code: _SAID[code] for code in sorted({403, 404, *codes})}


READS = errors()
WRITES = errors(400, 413)
CHANGES = errors(400, 409, 413)


class Conflict(APIException):
    """409: the caller began from a version that is no longer the newest."""

    status_code = status.HTTP_409_CONFLICT

    def __init__(self, current: object, sentence: str) -> None:
        super().__init__(sentence)
        self.detail = {"detail": sentence, "current": current}  # type: ignore[dict-item]


def conflict(clash: Clash, current: object) -> Conflict:
    return Conflict(current, str(clash.messages[0]))


def refused(error: ValidationError) -> serializers.ValidationError:
    """A refusal of the services as the API says it: field -> sentences."""
    if hasattr(error, "error_dict"):
        return serializers.ValidationError(error.message_dict)
    return serializers.ValidationError({"non_field_errors": error.messages})
