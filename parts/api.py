"""The parts book by API, for owner and office."""

from typing import Any, cast

from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from django.utils import timezone
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework import mixins, serializers, status, viewsets
from rest_framework.decorators import action
from rest_framework.request import Request
from rest_framework.response import Response

from office.versions import Clash
from parts import services
from parts.access import caller, get_part_for, parts_for, search_parts
from parts.api_errors import CHANGES, READS, WRITES, conflict, refused
from parts.api_parsers import BoundedBody
from parts.api_serializers import (
    BestPriceSerializer,
    PartChangeSerializer,
    PartNewSerializer,
    PartSerializer,
    PriceSerializer,
    SupplierSerializer,
)
from parts.models import Category, Part, Supplier

SEARCH = [
    OpenApiParameter("q", OpenApiTypes.STR, description="Words in code or label"),
    OpenApiParameter("category", OpenApiTypes.STR, enum=Category.values),
]


class PartViewSet(BoundedBody, viewsets.GenericViewSet[Part]):
    """Parts with their technical data and dated prices."""

    serializer_class = PartSerializer
    queryset = Part.objects.none()
    lookup_field = "code"
    lookup_value_regex = r"[a-z0-9][a-z0-9.\-]*"

    def get_queryset(self) -> QuerySet[Part]:
        return parts_for(caller(self.request))

    @extend_schema(parameters=SEARCH, responses={200: PartSerializer(many=True), **READS})
    def list(self, request: Request) -> Response:
        words, category = request.query_params.get("q", ""), request.query_params.get("category", "")
        found = search_parts(self.get_queryset(), words, category if category in Category.values else "")
        page = self.paginate_queryset(found)
        return self.get_paginated_response(PartSerializer(page, many=True).data)

    @extend_schema(responses={200: PartSerializer, **READS})
    def retrieve(self, request: Request, code: str) -> Response:
        return Response(PartSerializer(get_part_for(caller(request), code)).data)

    @extend_schema(request=PartNewSerializer, responses={201: PartSerializer, **WRITES})
    def create(self, request: Request) -> Response:
        form = PartNewSerializer(data=request.data)
        form.is_valid(raise_exception=True)
        try:
            part = services.create_part(by=caller(request), **form.validated_data)
        except services.PartInvalid as error:
            raise _data_refused(error) from None
        return Response(PartSerializer(part).data, status=status.HTTP_201_CREATED)

    @extend_schema(request=PartChangeSerializer, responses={200: PartSerializer, **CHANGES})
    def update(self, request: Request, code: str) -> Response:
        part = get_part_for(caller(request), code)
        form = PartChangeSerializer(data=request.data)
        form.is_valid(raise_exception=True)
        fields: dict[str, Any] = dict(form.validated_data)
        began_from = fields.pop("version")
        try:
            saved = services.update_part(part, began_from=began_from, by=caller(request), **fields)
        except services.PartInvalid as error:
            raise _data_refused(error) from None
        except Clash as clash:
            raise conflict(clash, PartSerializer(cast(Part, clash.current)).data) from None
        return Response(PartSerializer(saved).data)

    @extend_schema(responses={200: PriceSerializer(many=True), **READS}, methods=["GET"], filters=False)
    @extend_schema(request=PriceSerializer, responses={201: PriceSerializer, **WRITES}, methods=["POST"])
    @action(detail=True, methods=["get", "post"], pagination_class=None)
    def prices(self, request: Request, code: str) -> Response:
        """All dated prices of the part, newest first; or add one."""
        part = get_part_for(caller(request), code)
        if request.method != "POST":
            return Response(PriceSerializer(part.prices.select_related("supplier"), many=True).data)
        form = PriceSerializer(data=request.data)
        form.is_valid(raise_exception=True)
        try:
            price = services.add_price(part=part, by=caller(request), **form.validated_data)
        except ValidationError as error:
            raise refused(error) from None
        return Response(PriceSerializer(price).data, status=status.HTTP_201_CREATED)

    @extend_schema(
        parameters=[OpenApiParameter("on", OpenApiTypes.DATE, description="Day; today if left out")],
        responses={200: BestPriceSerializer(many=True), **WRITES},
        filters=False,
    )
    @action(detail=False, pagination_class=None, url_path="best-prices")
    def best_prices(self, request: Request) -> Response:
        """The best price of every part on a day."""
        day = serializers.DateField()
        try:
            on = day.run_validation(request.query_params.get("on", str(timezone.localdate())))
        except serializers.ValidationError as error:
            raise serializers.ValidationError({"on": error.detail}) from None
        return Response(BestPriceSerializer(services.best_prices(on).values(), many=True).data)


class SupplierViewSet(
    BoundedBody, mixins.ListModelMixin, mixins.CreateModelMixin, viewsets.GenericViewSet[Supplier]
):
    """Who sells us parts."""

    serializer_class = SupplierSerializer
    queryset = Supplier.objects.all()

    @extend_schema(responses={200: SupplierSerializer(many=True), **READS})
    def list(self, request: Request, *args: Any, **kwargs: Any) -> Response:
        return super().list(request, *args, **kwargs)

    @extend_schema(responses={201: SupplierSerializer, **WRITES})
    def create(self, request: Request, *args: Any, **kwargs: Any) -> Response:
        return super().create(request, *args, **kwargs)


def _data_refused(error: services.PartInvalid) -> serializers.ValidationError:
    sentences = [
        f"{problem.field}: {problem.sentence}" if problem.entity == "part" else str(problem)
        for problem in error.problems
    ]
    return serializers.ValidationError({"data": sentences})
