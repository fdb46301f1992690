"""Plan revisions by API: the document in and out, and its check report."""

from typing import Any

from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema, inline_serializer
from rest_framework import serializers, status, viewsets
from rest_framework.decorators import action
from rest_framework.request import Request
from rest_framework.response import Response

from design.report import report_to_dict
from parts.access import caller
from parts.api_errors import CHANGES, READS, Conflict, errors, refused
from parts.api_parsers import BoundedBody
from sites import services
from sites.access import get_plan_for, get_site_for, plans_for
from sites.api import SITE_PK
from sites.api_serializers import PlanNewSerializer, PlanRowSerializer, PlanSerializer, ProblemSerializer
from sites.check import check_revision
from sites.errors import CheckFailed, PlanClash, PlanRefused
from sites.models import PlanRevision

NUMBER = OpenApiParameter("number", OpenApiTypes.INT, OpenApiParameter.PATH)
REFUSED_PLAN = inline_serializer(
    "PlanProblems",
    {
        "problems": ProblemSerializer(many=True, required=False),
        "document": serializers.ListField(child=serializers.CharField(), required=False),
    },
)
REPORT = OpenApiResponse({"type": "object", "additionalProperties": {}}, "The check report")


class PlanViewSet(BoundedBody, viewsets.GenericViewSet[PlanRevision]):
    """Plan revisions of one site. A saved one never changes; posting makes the next."""

    serializer_class = PlanSerializer
    queryset = PlanRevision.objects.none()
    lookup_url_kwarg = "number"
    lookup_value_converter = "int"

    def get_queryset(self) -> QuerySet[PlanRevision]:
        return plans_for(caller(self.request)).order_by("-number")

    @extend_schema(parameters=[SITE_PK], responses={200: PlanRowSerializer(many=True), **READS})
    def list(self, request: Request, site_pk: int) -> Response:
        site = get_site_for(caller(request), site_pk)
        page = self.paginate_queryset(self.get_queryset().filter(site=site).defer("document"))
        return self.get_paginated_response(PlanRowSerializer(page, many=True).data)

    @extend_schema(parameters=[SITE_PK, NUMBER], responses={200: PlanSerializer, **READS})
    def retrieve(self, request: Request, site_pk: int, number: int) -> Response:
        return Response(PlanSerializer(get_plan_for(caller(request), site_pk, number)).data)

    @extend_schema(
        parameters=[SITE_PK],
        request=PlanNewSerializer,
        responses={201: PlanSerializer, **CHANGES, 400: OpenApiResponse(REFUSED_PLAN, "What is wrong in it")},
    )
    def create(self, request: Request, site_pk: int) -> Response:
        site = get_site_for(caller(request), site_pk)
        form = PlanNewSerializer(data=request.data)
        form.is_valid(raise_exception=True)
        fields: dict[str, Any] = dict(form.validated_data)
        try:
            revision = services.add_plan_revision(site=site, by=caller(request), **fields)
        except PlanRefused as refusal:
            problems = ProblemSerializer(refusal.problems, many=True).data
            raise serializers.ValidationError({"problems": problems}) from None
        except PlanClash as clash:
            current = PlanSerializer(clash.latest).data if clash.latest else None
            raise Conflict(current, str(clash)) from None
        except ValidationError as error:
            raise refused(error) from None
        return Response(PlanSerializer(revision).data, status=status.HTTP_201_CREATED)

    @extend_schema(parameters=[SITE_PK, NUMBER], responses={200: REPORT, **errors(422)}, filters=False)
    @action(detail=True, pagination_class=None)
    def check(self, request: Request, site_pk: int, number: int) -> Response:
        """The check report of the revision, with the parts book as it stands now."""
        revision = get_plan_for(caller(request), site_pk, number)
        try:
            return Response(report_to_dict(check_revision(revision)))
        except CheckFailed as failure:
            return Response({"detail": str(failure)}, status=status.HTTP_422_UNPROCESSABLE_ENTITY)
