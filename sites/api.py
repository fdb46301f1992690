"""Customers, sites, visits and plans by API, for owner and office."""

from typing import Any, cast

from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework import serializers, status, viewsets
from rest_framework.request import Request
from rest_framework.response import Response

from office.versions import Clash
from parts.access import caller
from parts.api_errors import CHANGES, READS, WRITES, conflict, refused
from parts.api_parsers import BoundedBody
from sites import services
from sites.access import customers_for, get_customer_for, get_site_for, get_visit_for, sites_for, visits_for
from sites.api_serializers import CustomerSerializer, SiteSerializer
from sites.api_visits import VisitSerializer, visit_data, visit_refused
from sites.errors import VisitRefused
from sites.models import Customer, Site, Visit
from sites.search import search_customers

PK = OpenApiParameter("id", OpenApiTypes.INT, OpenApiParameter.PATH)
SITE_PK = OpenApiParameter("site_pk", OpenApiTypes.INT, OpenApiParameter.PATH)
SEARCH = OpenApiParameter("q", OpenApiTypes.STR, description="Name, phone in any writing, street or town")


def version_of(fields: dict[str, Any]) -> int:
    """The version that a change began from, taken out of the fields."""
    version = fields.pop("version", None)
    if version is None:
        raise serializers.ValidationError({"version": ["Give the version that this change began from."]})
    return int(version)


class CustomerViewSet(BoundedBody, viewsets.GenericViewSet[Customer]):
    serializer_class = CustomerSerializer
    queryset = Customer.objects.none()
    lookup_url_kwarg = "id"
    lookup_value_converter = "int"

    def get_queryset(self) -> QuerySet[Customer]:
        return customers_for(caller(self.request))

    @extend_schema(parameters=[SEARCH], responses={200: CustomerSerializer(many=True), **READS})
    def list(self, request: Request) -> Response:
        found = search_customers(self.get_queryset(), request.query_params.get("q", ""))
        return self.get_paginated_response(CustomerSerializer(self.paginate_queryset(found), many=True).data)

    @extend_schema(parameters=[PK], responses={200: CustomerSerializer, **READS})
    def retrieve(self, request: Request, id: int) -> Response:
        return Response(CustomerSerializer(get_customer_for(caller(request), id)).data)

    @extend_schema(responses={201: CustomerSerializer, **WRITES})
    def create(self, request: Request) -> Response:
        fields = _valid(CustomerSerializer(data=request.data))
        fields.pop("version", None)
        try:
            customer = services.create_customer(by=caller(request), **fields)
        except ValidationError as error:
            raise refused(error) from None
        return Response(CustomerSerializer(customer).data, status=status.HTTP_201_CREATED)

    @extend_schema(parameters=[PK], responses={200: CustomerSerializer, **CHANGES})
    def update(self, request: Request, id: int) -> Response:
        customer = get_customer_for(caller(request), id)
        fields = _valid(CustomerSerializer(data=request.data))
        version = version_of(fields)
        try:
            saved = services.update_customer(customer, began_from=version, by=caller(request), **fields)
        except Clash as clash:
            raise conflict(clash, CustomerSerializer(cast(Customer, clash.current)).data) from None
        except ValidationError as error:
            raise refused(error) from None
        return Response(CustomerSerializer(saved).data)


class SiteViewSet(BoundedBody, viewsets.GenericViewSet[Site]):
    serializer_class = SiteSerializer
    queryset = Site.objects.none()
    lookup_url_kwarg = "id"
    lookup_value_converter = "int"

    def get_queryset(self) -> QuerySet[Site]:
        return sites_for(caller(self.request))

    @extend_schema(responses={200: SiteSerializer(many=True), **READS})
    def list(self, request: Request) -> Response:
        page = self.paginate_queryset(self.get_queryset())
        return self.get_paginated_response(SiteSerializer(page, many=True).data)

    @extend_schema(parameters=[PK], responses={200: SiteSerializer, **READS})
    def retrieve(self, request: Request, id: int) -> Response:
        return Response(SiteSerializer(get_site_for(caller(request), id)).data)

    @extend_schema(responses={201: SiteSerializer, **WRITES})
    def create(self, request: Request) -> Response:
        fields = _valid(SiteSerializer(data=request.data))
        fields.pop("version", None)
        try:
            site = services.create_site(by=caller(request), **fields)
        except ValidationError as error:
            raise refused(error) from None
        return Response(SiteSerializer(site).data, status=status.HTTP_201_CREATED)

    @extend_schema(parameters=[PK], responses={200: SiteSerializer, **CHANGES})
    def update(self, request: Request, id: int) -> Response:
        """The site as it shall be; ``customer`` may name the new owner of the place."""
        site = get_site_for(caller(request), id)
        fields = _valid(SiteSerializer(data=request.data))
        version = version_of(fields)
        try:
            saved = services.update_site(site, began_from=version, by=caller(request), **fields)
        except Clash as clash:
            raise conflict(clash, SiteSerializer(cast(Site, clash.current)).data) from None
        except ValidationError as error:
            raise refused(error) from None
        return Response(SiteSerializer(saved).data)


class VisitViewSet(BoundedBody, viewsets.GenericViewSet[Visit]):
    """Visits of one site. A figure without a unit is in the site's units."""

    serializer_class = VisitSerializer
    queryset = Visit.objects.none()
    lookup_url_kwarg = "id"
    lookup_value_converter = "int"

    @extend_schema(parameters=[SITE_PK], responses={200: VisitSerializer(many=True), **READS})
    def list(self, request: Request, site_pk: int) -> Response:
        site = get_site_for(caller(request), site_pk)
        page = self.paginate_queryset(visits_for(caller(request)).filter(site=site))
        return self.get_paginated_response(VisitSerializer(page, many=True).data)

    @extend_schema(parameters=[SITE_PK, PK], responses={200: VisitSerializer, **READS})
    def retrieve(self, request: Request, site_pk: int, id: int) -> Response:
        get_site_for(caller(request), site_pk)
        return Response(VisitSerializer(get_visit_for(caller(request), id, site_pk)).data)

    @extend_schema(parameters=[SITE_PK], responses={201: VisitSerializer, **WRITES})
    def create(self, request: Request, site_pk: int) -> Response:
        site = get_site_for(caller(request), site_pk)
        visit = self._save(request, site, None)
        return Response(VisitSerializer(visit).data, status=status.HTTP_201_CREATED)

    @extend_schema(parameters=[SITE_PK, PK], responses={200: VisitSerializer, **CHANGES})
    def update(self, request: Request, site_pk: int, id: int) -> Response:
        site = get_site_for(caller(request), site_pk)
        visit = get_visit_for(caller(request), id, site_pk)
        return Response(VisitSerializer(self._save(request, site, visit)).data)

    def _save(self, request: Request, site: Site, visit: Visit | None) -> Visit:
        fields = _valid(VisitSerializer(data=request.data, context={"system": site.units}))
        began_from = version_of(fields) if visit else 0
        try:
            saved = services.save_visit(
                visit_data(fields),
                site=site,
                visit=visit,
                began_from=began_from,
                confirmed=set(fields.get("confirmed", ())),
                by=caller(request),
            )
        except VisitRefused as refusal:
            raise visit_refused(refusal) from None
        except Clash as clash:
            raise conflict(clash, VisitSerializer(cast(Visit, clash.current)).data) from None
        except ValidationError as error:
            raise refused(error) from None
        return get_visit_for(caller(request), saved.pk)


def _valid(serializer: serializers.BaseSerializer[Any]) -> dict[str, Any]:
    serializer.is_valid(raise_exception=True)
    return dict(serializer.validated_data)
