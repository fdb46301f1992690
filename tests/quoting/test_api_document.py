"""Requests made up from the API's own document, sent to quotes in every state: never a 5xx."""

import pytest
import schemathesis
from drf_spectacular.generators import SchemaGenerator
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.quoting.factories import make_accepted, make_draft, make_issued, make_plan

pytestmark = pytest.mark.django_db
BODIES = [
    ("/api/quotes/", "POST"),
    ("/api/quotes/{id}/issue/", "POST"),
    ("/api/quotes/{id}/accept/", "POST"),
    ("/api/quotes/{id}/decline/", "POST"),
    ("/api/quotes/{id}/rework/", "POST"),
    ("/api/quotes/{id}/lines/{line_id}/", "PATCH"),
]


@pytest.fixture(scope="module")
def document():
    return SchemaGenerator().get_schema(request=None, public=True)


def test_the_document_names_all_of_it(document):
    paths = {path for path in document["paths"] if path.startswith("/api/quotes/")}
    steps = {"lines/", "lines/{line_id}/", "rework/", "issue/", "accept/", "decline/", "revise/", "link/"}
    assert paths == {"/api/quotes/", "/api/quotes/{id}/", *(f"/api/quotes/{{id}}/{step}" for step in steps)}


@pytest.mark.parametrize(("path", "method"), BODIES)
def test_made_up_bodies_never_break_it(document, path, method, clerk, clerk_client):
    quotes = [make_draft(clerk), make_issued(clerk, make_plan()), make_accepted(clerk, make_plan())]
    operation = schemathesis.openapi.from_dict(document)[path][method]
    documented = {int(code) for code in document["paths"][path][method.lower()]["responses"]}

    @given(case=operation.as_strategy(), quote=st.sampled_from(quotes))
    @settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck), database=None)
    def send(case, quote):
        line = quote.lines.first()
        url = path.format(id=quote.pk, line_id=line.pk if line else 1)
        body = case.body if isinstance(case.body, dict | list) else {}
        ask = getattr(clerk_client, method.lower())
        assert ask(url, body, content_type="application/json").status_code in documented

    send()


@given(text=st.text(max_size=40))
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck), database=None)
def test_any_text_is_an_id_or_a_search_without_harm(clerk_client, text):
    from urllib.parse import quote

    assert clerk_client.get(f"/api/quotes/{quote(text, safe='')}/").status_code in (200, 301, 404)
    assert clerk_client.get("/api/quotes/", {"q": text, "status": text}).status_code == 200
    assert clerk_client.get("/api/quotes/", {"page": text}).status_code in (200, 404)
