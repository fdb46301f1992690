"""The parts book by API: who may, versions, refusals."""

import pytest

from parts.models import Part, Price
from tests.parts.books import HEAD, PIPE

pytestmark = pytest.mark.django_db
PLACES = [
    "/api/parts/", "/api/parts/pvc-25/", "/api/parts/pvc-25/prices/", "/api/parts/best-prices/",
    "/api/suppliers/",
]  # fmt: skip


def send(client, method, place, body):
    return getattr(client, method)(place, body, content_type="application/json")


@pytest.mark.parametrize("place", PLACES)
def test_owner_and_office_may_read(small_book, owner_client, clerk_client, place):
    assert owner_client.get(place).status_code == 200
    assert clerk_client.get(place).status_code == 200


@pytest.mark.parametrize("place", PLACES)
def test_an_installer_and_a_stranger_may_not(small_book, installer_client, client, place):
    assert installer_client.get(place).status_code == 403
    assert client.get(place).status_code == 403


@pytest.mark.parametrize("place", PLACES)
def test_nothing_is_deleted_by_api(small_book, owner_client, place):
    assert owner_client.delete(place).status_code == 405


def test_a_part_is_added_and_changed_with_its_version(small_book, owner_client):
    new = {"category": "pipe", "data": {**PIPE, "code": "pvc-32", "bore_mm": 26.0}}
    made = send(owner_client, "post", "/api/parts/", new)
    assert (made.status_code, made.json()["version"], made.json()["code"]) == (201, 1, "pvc-32")
    body = {**new, "active": True, "version": 1, "data": {**new["data"], "bore_mm": 26.2}}
    assert send(owner_client, "put", "/api/parts/pvc-32/", body).json()["version"] == 2
    late = send(owner_client, "put", "/api/parts/pvc-32/", body)
    assert late.status_code == 409
    assert late.json()["current"]["data"]["bore_mm"] == 26.2


def test_a_part_whose_data_name_another_code_is_refused(small_book, owner_client):
    body = {"category": "heads", "active": True, "version": 1, "data": HEAD}
    answer = send(owner_client, "put", "/api/parts/pvc-25/", body)
    assert answer.status_code == 400
    assert "The code must stay “pvc-25”" in answer.json()["data"][0]


@pytest.mark.parametrize(
    "body",
    [
        "", "{", "[]", "3", '{"category": "pipe"}', '{"category": "pipe", "data": NaN}',
        '{"category": "pipe", "data": {"kind": "pipe", "code": "a\\u0000b", "label": "x"}}',
        '{"category": "pipe", "data": {"kind": "pipe", "label": "\\ud800"}}',
        '{"category": "pipe", "data": {"kind": ["pipe"]}}',
        '{"category": "pipe", "data": {"kind": "head", "rows": 7}}',
        '{"category": "pipe", "data": ' + "[" * 50_000 + "}", '{"category": ' + "9" * 5000 + "}",
    ],
)  # fmt: skip
def test_a_bad_body_is_a_400_with_a_sentence(small_book, owner_client, body):
    answer = send(owner_client, "post", "/api/parts/", body)
    assert answer.status_code == 400
    assert answer.json()
    assert Part.objects.count() == 2


def test_a_body_of_ten_megabytes_is_refused(small_book, owner_client):
    answer = send(owner_client, "post", "/api/parts/", '{"category": "' + "x" * 10_000_000 + '"}')
    assert answer.status_code == 413
    assert "larger than" in answer.json()["detail"]


def test_a_price_is_added_once_a_day(small_book, owner_client):
    body = {"supplier": "north", "price": "8.80", "pack": "6", "unit": "stick", "valid_from": "2026-08-01"}
    assert send(owner_client, "post", "/api/parts/pvc-25/prices/", body).status_code == 201
    assert send(owner_client, "post", "/api/parts/pvc-25/prices/", body).status_code == 400
    assert Price.objects.count() == 4


def test_best_prices_of_a_day(small_book, owner_client):
    found = owner_client.get("/api/parts/best-prices/", {"on": "2026-07-01"}).json()
    assert found[0]["supplier"] == "south"
    assert owner_client.get("/api/parts/best-prices/", {"on": "soon"}).status_code == 400
