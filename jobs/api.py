"""Jobs by API, for everybody who works here; no price in any of it."""

from typing import Any

from django.db.models import QuerySet
from django.utils import timezone
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema
from rest_framework import status, viewsets
from rest_framework.decorators import action
from rest_framework.exceptions import APIException
from rest_framework.request import Request
from rest_framework.response import Response

from jobs.access import get_job, get_task, jobs_for
from jobs.api_serializers import (
    CheckOffSerializer,
    JobDetailSerializer,
    JobSerializer,
    NewCheckOffSerializer,
)
from jobs.errors import Refused
from jobs.models import CheckOff, Job, Result
from jobs.services import Entry, check_off
from jobs.snapshot import read_snapshot
from office.permissions import IsStaff
from parts.access import caller
from parts.api_errors import READS, WRITES, DetailSerializer
from parts.api_parsers import BoundedJSONParser

_LOCKED = OpenApiResponse(DetailSerializer, "The rules forbid it now; the sentence says what to do")
_ID = OpenApiParameter("id", OpenApiTypes.INT64, OpenApiParameter.PATH)


class NotNow(APIException):
    """409: a rule forbids the entry at present."""

    status_code = status.HTTP_409_CONFLICT


class JobViewSet(viewsets.GenericViewSet[Job]):
    """Jobs with their tasks, points to set out, trenches, crossings and cable runs."""

    serializer_class = JobSerializer
    permission_classes = [IsStaff]
    parser_classes = [BoundedJSONParser]
    queryset = Job.objects.none()
    lookup_value_regex = r"\d{1,18}"

    def get_queryset(self) -> QuerySet[Job]:
        jobs = jobs_for(caller(self.request)).defer("snapshot").prefetch_related("crew")
        return jobs.order_by("-is_mine", "id")  # type: ignore[misc]  # an annotation of jobs_for

    @extend_schema(responses={200: JobSerializer(many=True), **READS})
    def list(self, request: Request) -> Response:
        page = self.paginate_queryset(self.get_queryset())
        return self.get_paginated_response(JobSerializer(page, many=True).data)

    @extend_schema(parameters=[_ID], responses={200: JobDetailSerializer, **READS})
    def retrieve(self, request: Request, pk: str) -> Response:
        job = get_job(caller(request), int(pk))
        job.typed = read_snapshot(job.snapshot)  # type: ignore[attr-defined]  # read once for all fields
        job._prefetched_objects_cache["tasks"] = list(  # type: ignore[attr-defined]  # Django's own store
            job.tasks.prefetch_related("checkoffs__by")
        )
        return Response(JobDetailSerializer(job, context={"today": timezone.localdate()}).data)

    @extend_schema(
        parameters=[_ID],
        responses={200: CheckOffSerializer(many=True), **READS},
        methods=["GET"],
        filters=False,
    )
    @extend_schema(
        parameters=[_ID],
        request=NewCheckOffSerializer,
        responses={201: CheckOffSerializer, 200: CheckOffSerializer, 409: _LOCKED, **WRITES},
        methods=["POST"],
    )
    @action(detail=True, methods=["get", "post"], pagination_class=None)
    def checkoffs(self, request: Request, pk: str) -> Response:
        """All entries from the site, oldest first; or add one. Sent again: 200, nothing changes."""
        job = get_job(caller(request), int(pk))
        if request.method != "POST":
            rows = CheckOff.objects.filter(task__job=job).select_related("by").order_by("at", "id")
            return Response(CheckOffSerializer(rows, many=True).data)
        form = NewCheckOffSerializer(data=request.data)
        form.is_valid(raise_exception=True)
        data: dict[str, Any] = form.validated_data
        task = get_task(caller(request), job.pk, data["task"])
        entry = Entry(data["id"], Result(data["result"]), data["note"], data["device_at"])
        try:
            row, is_new = check_off(task=task, by=caller(request), entry=entry)
        except Refused as refusal:
            raise NotNow(refusal.sentence) from None
        code = status.HTTP_201_CREATED if is_new else status.HTTP_200_OK
        return Response(CheckOffSerializer(row).data, status=code)
