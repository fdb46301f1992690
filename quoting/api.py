"""Quotes by API, for owner and office. The services are those of the pages."""

from collections.abc import Callable
from typing import Any, cast

from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from django.http import Http404
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema
from rest_framework import serializers, status, viewsets
from rest_framework.decorators import action
from rest_framework.exceptions import APIException
from rest_framework.request import Request
from rest_framework.response import Response

from office.versions import Clash
from parts.access import caller
from parts.api_errors import READS, WRITES, conflict, errors, refused
from parts.api_parsers import BoundedBody
from quoting import services
from quoting.access import get_line_for, get_plan_revision_for, get_quote_for, quotes_for
from quoting.api_serializers import (
    DeclineSerializer,
    DraftSerializer,
    IssueSerializer,
    LineChangeSerializer,
    LineSerializer,
    LinkSerializer,
    PaperSerializer,
    QuoteDetailSerializer,
    QuoteSerializer,
    RefusalSerializer,
    ReworkSerializer,
)
from quoting.errors import PlanNotPriceable, QuoteError
from quoting.links import address_of
from quoting.models import Quote, QuoteLine, Status
from quoting.search import search_quotes

MOVES = {
    **errors(400, 413),
    409: OpenApiResponse(RefusalSerializer, "The quote is not in a state that allows it, or was saved since"),
}
SEARCH = [
    OpenApiParameter("q", OpenApiTypes.STR, description="Number, customer, site or town"),
    OpenApiParameter("status", OpenApiTypes.STR, enum=Status.values),
]
_ID = OpenApiParameter("id", OpenApiTypes.INT, OpenApiParameter.PATH)
_LINE = OpenApiParameter("line_id", OpenApiTypes.INT, OpenApiParameter.PATH)


class Refused(APIException):
    """409: the services said no, and why."""

    status_code = status.HTTP_409_CONFLICT


class QuoteViewSet(BoundedBody, viewsets.GenericViewSet[Quote]):
    """Quotes, their lines, and the steps of their life."""

    serializer_class = QuoteSerializer
    queryset = Quote.objects.none()
    lookup_field = "id"
    lookup_value_regex = r"\d{1,15}"

    def get_queryset(self) -> QuerySet[Quote]:
        return quotes_for(caller(self.request))

    @extend_schema(parameters=SEARCH, responses={200: QuoteSerializer(many=True), **READS})
    def list(self, request: Request) -> Response:
        words, wanted = request.query_params.get("q", "")[:100], request.query_params.get("status", "")
        page = self.paginate_queryset(search_quotes(self.get_queryset(), words, wanted))
        return self.get_paginated_response(QuoteSerializer(page, many=True).data)

    @extend_schema(parameters=[_ID], responses={200: QuoteDetailSerializer, **READS})
    def retrieve(self, request: Request, id: str) -> Response:
        return _detail(self._quote(id))

    @extend_schema(request=DraftSerializer, responses={201: QuoteDetailSerializer, **WRITES})
    def create(self, request: Request) -> Response:
        """Work a draft out from a plan revision."""
        data = _read(DraftSerializer, request)
        try:
            plan = get_plan_revision_for(caller(request), data["plan"])
        except Http404:
            raise serializers.ValidationError({"plan": ["There is no such plan revision."]}) from None
        try:
            quote = services.draft_quote(plan=plan, by=caller(request))
        except PlanNotPriceable as error:
            raise serializers.ValidationError({"plan": [error.sentence]}) from None
        return _detail(quote, status.HTTP_201_CREATED)

    @extend_schema(parameters=[_ID], responses={204: None, **MOVES})
    def destroy(self, request: Request, id: str) -> Response:
        """Discard a draft."""
        _do(lambda: services.discard_draft(quote=self._quote(id), by=caller(request)))
        return Response(status=status.HTTP_204_NO_CONTENT)

    @extend_schema(parameters=[_ID], responses={200: LineSerializer(many=True), **READS}, filters=False)
    @action(detail=True, pagination_class=None)
    def lines(self, request: Request, id: str) -> Response:
        return Response(LineSerializer(self._quote(id).lines.all(), many=True).data)

    @extend_schema(
        parameters=[_ID, _LINE], request=LineChangeSerializer, responses={200: LineSerializer, **MOVES}
    )
    @action(detail=True, methods=["patch"], url_path=r"lines/(?P<line_id>\d{1,15})")
    def line(self, request: Request, id: str, line_id: str) -> Response:
        """Change a line of a draft; everything is priced anew."""
        line = get_line_for(caller(request), int(id), int(line_id))
        fields = _read(LineChangeSerializer, request)
        began_from = fields.pop("version")
        if "price" in fields:
            fields["price_fixed"] = fields["price"] is not None
        if fields.get("price") is None:
            fields.pop("price", None)
            fields.pop("price_reason", None)
        saved = _do(
            lambda: services.edit_line(line=line, began_from=began_from, by=caller(request), fields=fields)
        )
        return Response(LineSerializer(saved).data)

    @extend_schema(
        parameters=[_ID], request=ReworkSerializer, responses={200: QuoteDetailSerializer, **MOVES}
    )
    @action(detail=True, methods=["post"])
    def rework(self, request: Request, id: str) -> Response:
        """Check, take off and price a draft anew."""
        data, quote = _read(ReworkSerializer, request), self._quote(id)
        return _detail(
            _do(lambda: services.rework_quote(quote=quote, by=caller(request), began_from=data["version"]))
        )

    @extend_schema(parameters=[_ID], request=IssueSerializer, responses={200: QuoteDetailSerializer, **MOVES})
    @action(detail=True, methods=["post"])
    def issue(self, request: Request, id: str) -> Response:
        """Number, seal and issue a draft."""
        data, quote = _read(IssueSerializer, request), self._quote(id)
        reason, version = data["overrule_reason"], data["version"]
        return _detail(
            _do(
                lambda: services.issue_quote(
                    quote=quote, by=caller(request), began_from=version, overrule_reason=reason
                )
            )
        )

    @extend_schema(parameters=[_ID], request=PaperSerializer, responses={200: QuoteDetailSerializer, **MOVES})
    @action(detail=True, methods=["post"])
    def accept(self, request: Request, id: str) -> Response:
        """Record a signature on paper."""
        data, quote = _read(PaperSerializer, request), self._quote(id)
        signature = services.Signature(data["name"], tuple(data.get("options", ())), data["signed_on"])
        return _detail(
            _do(lambda: services.accept_on_paper(quote=quote, by=caller(request), signature=signature))
        )

    @extend_schema(
        parameters=[_ID], request=DeclineSerializer, responses={200: QuoteDetailSerializer, **MOVES}
    )
    @action(detail=True, methods=["post"])
    def decline(self, request: Request, id: str) -> Response:
        data, quote = _read(DeclineSerializer, request), self._quote(id)
        return _detail(_do(lambda: services.decline(quote=quote, by=caller(request), reason=data["reason"])))

    @extend_schema(parameters=[_ID], request=None, responses={201: QuoteDetailSerializer, **MOVES})
    @action(detail=True, methods=["post"])
    def revise(self, request: Request, id: str) -> Response:
        """A draft of the next revision."""
        draft = _do(lambda: services.new_revision(quote=self._quote(id), by=caller(request)))
        return _detail(draft, status.HTTP_201_CREATED)

    @extend_schema(parameters=[_ID], request=None, responses={201: LinkSerializer, **MOVES})
    @action(detail=True, methods=["post"])
    def link(self, request: Request, id: str) -> Response:
        """A new link for the customer; the one before stops working."""
        made = _do(lambda: services.make_link(quote=self._quote(id), by=caller(request)))
        body = {"address": address_of(made.token, request), "expires_at": made.link.expires_at}
        return Response(LinkSerializer(body).data, status=status.HTTP_201_CREATED)

    def _quote(self, id: str) -> Quote:
        return get_quote_for(caller(self.request), int(id))


def _read(form_class: type[serializers.Serializer[Any]], request: Request) -> dict[str, Any]:
    form = form_class(data=request.data)
    form.is_valid(raise_exception=True)
    return dict(form.validated_data)


def _detail(quote: Quote, code: int = status.HTTP_200_OK) -> Response:
    return Response(QuoteDetailSerializer(quote).data, status=code)


def _do(service: Callable[[], Any]) -> Any:
    """Call a service; what it refuses is said as 400 or 409."""
    try:
        return service()
    except Clash as clash:
        raise conflict(clash, _current(clash)) from None
    except ValidationError as error:
        raise refused(error) from None
    except QuoteError as error:
        raise Refused(error.sentence) from None


def _current(clash: Clash) -> object:
    if isinstance(clash.current, QuoteLine):
        return LineSerializer(clash.current).data
    return QuoteDetailSerializer(cast(Quote, clash.current)).data
