"""What the quoting API takes and gives."""

from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

from quoting.models import Acceptance, Quote, QuoteLine

WHOLE: dict[str, Any] = {"min_value": 1, "max_value": 2**31 - 1}


class QuoteSerializer(serializers.ModelSerializer[Quote]):
    reference = serializers.CharField(read_only=True, help_text="The number as people read it")
    customer = serializers.CharField(source="site.customer.name", read_only=True)

    class Meta:
        model = Quote
        fields = [
            "id", "reference", "number", "number_year", "revision", "status", "title", "customer", "site",
            "plan", "replaces", "issued_at", "valid_until", "net", "tax", "total", "version",
        ]  # fmt: skip
        read_only_fields = fields


class AcceptanceSerializer(serializers.ModelSerializer[Acceptance]):
    options = serializers.ListField(child=serializers.IntegerField(), read_only=True)

    class Meta:
        model = Acceptance
        fields = ["by", "name", "at", "signed_on", "address", "pdf_sha256", "options", "net", "tax", "total"]
        read_only_fields = fields


class QuoteDetailSerializer(QuoteSerializer):
    acceptance = serializers.SerializerMethodField()
    digest = serializers.SerializerMethodField(help_text="Of what was sealed; none for a draft")

    class Meta(QuoteSerializer.Meta):
        fields = [*QuoteSerializer.Meta.fields, "message", "machine_access", "acceptance", "digest"]
        read_only_fields = fields

    @extend_schema_field(AcceptanceSerializer(allow_null=True))
    def get_acceptance(self, quote: Quote) -> dict[str, Any] | None:
        acceptance = getattr(quote, "acceptance", None)
        return None if acceptance is None else dict(AcceptanceSerializer(acceptance).data)

    @extend_schema_field(serializers.CharField(allow_null=True))
    def get_digest(self, quote: Quote) -> str | None:
        return None if quote.seal is None else str(quote.seal.digest)


class LineSerializer(serializers.ModelSerializer[QuoteLine]):
    where = serializers.ListField(child=serializers.CharField(), read_only=True)

    class Meta:
        model = QuoteLine
        fields = [
            "id", "version", "order", "origin", "section", "kind", "text", "internal_text", "listed",
            "quantity", "unit", "unit_cost", "cost", "overhead", "contingency", "hours", "price",
            "price_fixed", "price_reason", "tax_rate", "supplier", "where", "how", "choice", "alternative_to",
        ]  # fmt: skip
        read_only_fields = fields


class DraftSerializer(serializers.Serializer[Any]):
    plan = serializers.IntegerField(help_text="Id of a plan revision", **WHOLE)


class ReworkSerializer(serializers.Serializer[Any]):
    version = serializers.IntegerField(help_text="The version that this began from", **WHOLE)


class IssueSerializer(ReworkSerializer):
    overrule_reason = serializers.CharField(
        max_length=500, required=False, allow_blank=True, default="", help_text="For the owner"
    )


class DeclineSerializer(serializers.Serializer[Any]):
    reason = serializers.CharField(max_length=500)


class PaperSerializer(serializers.Serializer[Any]):
    name = serializers.CharField(max_length=200)
    signed_on = serializers.DateField()
    options = serializers.ListField(
        child=serializers.IntegerField(min_value=1, max_value=2**53), max_length=100, required=False
    )


class LinkSerializer(serializers.Serializer[Any]):
    """The address of the customer's page; shown this once."""

    address = serializers.CharField(read_only=True)
    expires_at = serializers.DateTimeField(read_only=True)


class LineChangeSerializer(serializers.Serializer[Any]):
    """What shall change in a line; ``price`` with its reason sets it by hand, null frees it again."""

    version = serializers.IntegerField(**WHOLE)
    text = serializers.CharField(max_length=300, required=False)
    internal_text = serializers.CharField(max_length=500, required=False, allow_blank=True)
    listed = serializers.BooleanField(required=False)
    quantity = serializers.DecimalField(max_digits=14, decimal_places=3, min_value=0, required=False)
    price = serializers.DecimalField(
        max_digits=12, decimal_places=2, min_value=0, required=False, allow_null=True
    )
    price_reason = serializers.CharField(max_length=300, required=False, allow_blank=True)

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        if attrs.get("price") is not None and not attrs.get("price_reason", "").strip():
            raise serializers.ValidationError({"price_reason": "A price set by hand needs its reason."})
        return attrs


class RefusalSerializer(serializers.Serializer[Any]):
    detail = serializers.CharField()
