"""The cheapest pipes of a plan revision by API. Nothing is saved: post the plan to keep it."""

from typing import Any

from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema
from rest_framework import serializers, status
from rest_framework.request import Request
from rest_framework.response import Response

from design.sizing_result import sizing_to_dict
from parts.access import caller
from parts.api_errors import errors
from parts.api_parsers import BoundedBody
from sites.access import get_plan_for
from sites.api import SITE_PK
from sites.errors import CheckFailed
from sites.sizing_services import size_revision, unknown_pipes

NUMBER = OpenApiParameter("number", OpenApiTypes.INT, OpenApiParameter.PATH)
SIZES = OpenApiResponse(
    {"type": "object", "additionalProperties": {}},
    "Pipes that change, costs, the proven bound, the sized plan",
)


class SizesSerializer(serializers.Serializer[Any]):
    """What may be said beside the plan: pipes that stay as they are."""

    keep = serializers.ListField(child=serializers.CharField(max_length=40), max_length=1200, default=list)


class SizesView(BoundedBody):
    """Least-cost pipe sizes at today's best prices."""

    @extend_schema(
        operation_id="sites_plans_sizes",
        parameters=[SITE_PK, NUMBER],
        request=SizesSerializer,
        responses={200: SIZES, **errors(400, 413, 422)},
    )
    def post(self, request: Request, site_pk: int, number: int) -> Response:
        """Work out sizes for the revision; with no answer, ``plan`` is null and ``shortfalls`` say why."""
        revision = get_plan_for(caller(request), site_pk, number)
        form = SizesSerializer(data=request.data)
        form.is_valid(raise_exception=True)
        keep = frozenset(form.validated_data["keep"])
        if unknown := unknown_pipes(revision, keep):
            raise serializers.ValidationError({"keep": [f"This plan has no pipe {unknown[0]}."]})
        try:
            return Response(sizing_to_dict(size_revision(revision, keep)))
        except CheckFailed as failure:
            return Response({"detail": str(failure)}, status=status.HTTP_422_UNPROCESSABLE_ENTITY)
