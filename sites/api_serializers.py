"""What the API of customers, sites and plans takes and gives."""

from typing import Any

from rest_framework import serializers

from sites.models import Customer, PlanRevision, Site


class VersionField(serializers.IntegerField):
    """The version that a change began from; needed when changing, ignored when adding."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(min_value=1, max_value=2**31 - 1, **kwargs)


class CustomerSerializer(serializers.ModelSerializer[Customer]):
    version = VersionField(required=False)

    class Meta:
        model = Customer
        fields = [
            "id", "version", "name", "phone", "email", "street", "postcode", "town", "country", "notes",
        ]  # fmt: skip


class SiteSerializer(serializers.ModelSerializer[Site]):
    version = VersionField(required=False)
    customer = serializers.PrimaryKeyRelatedField(queryset=Customer.objects.all())

    class Meta:
        model = Site
        fields = [
            "id", "version", "customer", "name", "units", "street", "postcode", "town", "country",
            "authority_notes", "access_notes",
        ]  # fmt: skip


class PlanRowSerializer(serializers.ModelSerializer[PlanRevision]):
    """A revision without its document."""

    class Meta:
        model = PlanRevision
        fields = ["number", "name", "digest", "made_at"]


class PlanSerializer(serializers.ModelSerializer[PlanRevision]):
    document = serializers.DictField(help_text="A plan/1 document; docs/plan.schema.json describes it")

    class Meta:
        model = PlanRevision
        fields = ["number", "name", "digest", "made_at", "document"]


class PlanNewSerializer(serializers.Serializer[Any]):
    """``began_from`` is the number of the revision that this was begun from, 0 for none."""

    began_from = serializers.IntegerField(min_value=0, max_value=2**31 - 1)
    name = serializers.CharField(max_length=120, required=False, allow_blank=True, default="")
    document = serializers.DictField()


class ProblemSerializer(serializers.Serializer[Any]):
    entity = serializers.CharField()
    field = serializers.CharField(allow_blank=True)
    sentence = serializers.CharField()
