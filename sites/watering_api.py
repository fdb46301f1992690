"""The watering year of a plan revision by API."""

from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema
from rest_framework import status
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from design.watering_report import watering_to_dict
from parts.access import caller
from parts.api_errors import errors
from sites.access import get_plan_for
from sites.api import SITE_PK
from sites.errors import CheckFailed
from sites.watering_year import year_of

NUMBER = OpenApiParameter("number", OpenApiTypes.INT, OpenApiParameter.PATH)
YEAR = OpenApiResponse({"type": "object", "additionalProperties": {}}, "Minutes, cycles and litres by month")


class WateringView(APIView):
    """Minutes per zone and week, litres per month, what does not fit."""

    @extend_schema(
        operation_id="sites_plans_watering",
        parameters=[SITE_PK, NUMBER],
        responses={200: YEAR, **errors(422)},
    )
    def get(self, request: Request, site_pk: int, number: int) -> Response:
        """The watering year of the revision, by the site's climate and restrictions as they stand now."""
        revision = get_plan_for(caller(request), site_pk, number)
        try:
            return Response(watering_to_dict(year_of(revision)))
        except CheckFailed as failure:
            return Response({"detail": str(failure)}, status=status.HTTP_422_UNPROCESSABLE_ENTITY)
