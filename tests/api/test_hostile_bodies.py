"""Bodies that no sensible client sends: each is a 4xx with a sentence, and nothing is kept."""

import time

import pytest

from sites.models import Customer

MANY = ",".join(f'"k{n}":1' for n in range(100_000))
BODIES = {
    "empty": b"",
    "null": b"null",
    "a list": b"[]",
    "ten thousand brackets": b"[" * 10_000,
    "ten thousand braces": b'{"a":' * 10_000 + b"1" + b"}" * 10_000,
    "not a number": b'{"name": NaN}',
    "infinite": b'{"name": Infinity}',
    "infinite by its exponent": b'{"name": 1e999}',
    "five thousand digits": b'{"name": ' + b"9" * 5_000 + b"}",
    "nul": b'{"name": "a\\u0000"}',
    "half a character": b'{"name": "\\ud800"}',
    "a name twice": b'{"name": "a", "name": "b"}',
    "a name twice among many": f'{{"name": "a",{MANY},"k99999":2}}'.encode(),
    "utf-16": '{"name": "a"}'.encode("utf-16"),
    "something after it": b'{"name": "a"} x',
    "the wrong types": b'{"name": {}, "phone": [], "notes": 7}',
}


@pytest.mark.parametrize("body", BODIES.values(), ids=BODIES)
def test_a_hostile_body_is_refused(clerk_client, body):
    start = time.process_time()
    answer = clerk_client.post("/api/customers/", body, content_type="application/json")
    assert answer.status_code == 400
    assert answer.json()
    assert time.process_time() - start < 5
    assert not Customer.objects.exists()


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "application/xml", ""])
def test_another_content_type_is_refused(clerk_client, kind):
    answer = clerk_client.post("/api/customers/", b"name=a", content_type=kind)
    assert answer.status_code in (400, 415)


@pytest.mark.parametrize("query", ["version=%00", "version=a%0d%0ab:c", "format=%00", "lang=%00"])
def test_the_document_of_the_api_survives_what_is_asked_of_it(clerk_client, query):
    answer = clerk_client.get(f"/api/schema/?{query}")
    assert answer.status_code in (200, 404)
    assert not set("\x00\r\n") & set(answer.get("Content-Disposition", ""))
