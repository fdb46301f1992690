"""The jobs part of the API document, and requests made up from it: never a 5xx."""

import pytest
import schemathesis
from django.test import Client
from drf_spectacular.generators import SchemaGenerator
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.conftest import client_of
from tests.jobs.makers import make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def document():
    return SchemaGenerator().get_schema(request=None, public=True)


def test_the_document_names_all_of_it(document):
    paths = {path for path in document["paths"] if path.startswith("/api/jobs/")}
    assert paths == {"/api/jobs/", "/api/jobs/{id}/", "/api/jobs/{id}/checkoffs/"}
    post = document["paths"]["/api/jobs/{id}/checkoffs/"]["post"]
    assert {"200", "201", "400", "403", "404", "409"} <= set(post["responses"])
    for name in ("JobDetail", "CheckOff", "Stake", "Digging"):
        fields = document["components"]["schemas"][name]["properties"]
        assert fields
        assert not {"price", "cost", "total", "sum"} & set(fields)


def test_made_up_requests_never_break_it(document, installer):
    job, client = make_job(), client_of(installer)
    schema = schemathesis.openapi.from_dict(document)
    operation = schema["/api/jobs/{id}/checkoffs/"]["POST"]

    @given(case=operation.as_strategy(), own=st.booleans())
    @settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck), database=None)
    def send(case, own):
        body = case.body if isinstance(case.body, dict | list) else {}
        if own and isinstance(body, dict):
            body["task"] = job.tasks.first().pk
        answer = client.post(f"/api/jobs/{job.pk}/checkoffs/", body, content_type="application/json")
        assert answer.status_code < 500
        assert answer.status_code in {200, 201, 400, 404, 409}

    send()


@given(pk=st.text(max_size=30))
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck), database=None)
def test_any_text_as_an_id_is_refused_not_broken(installer_client, pk):
    from urllib.parse import quote

    assert installer_client.get(f"/api/jobs/{quote(pk, safe='')}/").status_code < 500
    assert Client().get(f"/api/jobs/{quote(pk, safe='')}/").status_code < 500
