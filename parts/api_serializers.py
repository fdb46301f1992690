"""What the parts API takes and gives."""

from decimal import Decimal
from typing import Any

from rest_framework import serializers

from parts.models import Category, Part, Price, Supplier


class PartSerializer(serializers.ModelSerializer[Part]):
    data = serializers.DictField(help_text="Technical data, SI units in the names")  # type: ignore[assignment]

    class Meta:
        model = Part
        fields = ["code", "label", "kind", "category", "active", "version", "data"]


class PartNewSerializer(serializers.Serializer[Any]):
    category = serializers.ChoiceField(choices=Category.choices)
    active = serializers.BooleanField(default=True)
    data = serializers.DictField(  # type: ignore[assignment]
        help_text="Technical data: kind, code, label and what that kind needs"
    )


class PartChangeSerializer(PartNewSerializer):
    """The whole part as it shall be, and the version that this began from."""

    active = serializers.BooleanField()
    version = serializers.IntegerField(min_value=1, max_value=2**31 - 1)


class SupplierSerializer(serializers.ModelSerializer[Supplier]):
    class Meta:
        model = Supplier
        fields = ["code", "name"]


class PriceSerializer(serializers.ModelSerializer[Price]):
    supplier = serializers.SlugRelatedField(slug_field="code", queryset=Supplier.objects.all())
    price = serializers.DecimalField(max_digits=12, decimal_places=4, min_value=Decimal(0))
    pack = serializers.DecimalField(
        max_digits=10, decimal_places=3, min_value=Decimal("0.001"), default=Decimal(1)
    )

    class Meta:
        model = Price
        fields = ["id", "supplier", "price", "pack", "unit", "valid_from"]


class BestPriceSerializer(serializers.Serializer[Any]):
    code = serializers.CharField()
    supplier = serializers.CharField()
    price = serializers.DecimalField(max_digits=12, decimal_places=4)
    pack = serializers.DecimalField(max_digits=10, decimal_places=3)
    unit = serializers.CharField()
    valid_from = serializers.DateField()
    age_days = serializers.IntegerField()
