"""API fields for figures: written as typed text, read as SI beside it."""

from typing import Any

from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

from hydraulics.errors import BadQuantity
from hydraulics.units import Kind, Quantity
from sites.figures import default_unit
from sites.quantity_field import MAX_LENGTH, read_quantity, sentence


@extend_schema_field(OpenApiTypes.STR)
class TypedQuantity(serializers.CharField):
    """A figure as typed, such as '65 psi'. A bare number is in the default unit of the context's system."""

    def __init__(self, kind: Kind, **kwargs: Any) -> None:
        self.kind: Kind = kind
        super().__init__(max_length=MAX_LENGTH, **kwargs)

    def run_validation(self, data: Any = serializers.empty) -> Any:
        text = super().run_validation(data)
        if not isinstance(text, str) or not text:
            return None
        unit = default_unit(self.kind, self.context.get("system", "metric"))
        try:
            return read_quantity(text, self.kind, unit)
        except BadQuantity as error:
            raise serializers.ValidationError(sentence(str(error))) from None

    def to_representation(self, value: Any) -> str:
        return value.text if isinstance(value, Quantity) else str(value)
