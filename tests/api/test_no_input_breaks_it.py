"""Generated requests against the API's own document: no answer is a server error, each fits its schema."""

import pytest
from django.db import transaction
from drf_spectacular.generators import SchemaGenerator
from hypothesis import HealthCheck, given, settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]


def operations() -> list[tuple[str, str]]:
    paths = SchemaGenerator().get_schema(request=None, public=True)["paths"]
    return [(path, method.upper()) for path, methods in paths.items() for method in methods]


def test_the_document_lists_what_the_apps_offer():
    found = {path.split("/")[2] for path, _ in operations()}
    assert {"customers", "sites", "parts", "quotes", "jobs"} <= found


@pytest.mark.parametrize(("path", "method"), operations())
def test_every_operation_answers_as_documented(api_schema, path, method):
    @given(case=api_schema[path][method].as_strategy())
    @settings(
        max_examples=12,
        deadline=None,
        derandomize=True,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    def send(case):
        with transaction.atomic():
            case.call_and_validate(checks=CHECKS)
            transaction.set_rollback(True)

    send()
