"""Bodies that are too large or cannot be read: a sentence and a 4xx, on pages and in the API, for anybody."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

HUGE = "x" * 13_000_000
LARGE = "x" * 10_000_000
PAGES = ["/customers/add/", "/sites/1/plans/import/", "/parts/import/", "/account/login/", "/o/abc/accept/"]


@pytest.mark.django_db
@pytest.mark.parametrize("page", PAGES)
def test_a_huge_body_is_refused_before_it_is_read(page):
    answer = Client().post(page, {"file": SimpleUploadedFile("a.json", HUGE.encode())})
    assert answer.status_code == 413
    assert "too large" in answer.content.decode()


def test_a_large_form_says_so(clerk_client):
    answer = clerk_client.post("/customers/add/", {"name": LARGE})
    assert answer.status_code == 413
    assert "too large" in answer.content.decode()


def test_a_large_file_is_refused_beside_its_field(clerk_client):
    answer = clerk_client.post("/parts/import/", {"file": SimpleUploadedFile("a.json", LARGE.encode())})
    assert answer.status_code == 422
    assert "larger than 5 MB" in answer.content.decode()


@pytest.mark.parametrize("size", [len(LARGE), len(HUGE)])
def test_the_api_says_so_in_json(clerk_client, size):
    body = b'{"name": "' + b"x" * size + b'"}'
    answer = clerk_client.post("/api/customers/", body, content_type="application/json")
    assert answer.status_code == 413
    assert "large" in answer.json()["detail"]


def test_too_many_fields_or_files_are_named(clerk_client):
    fields = clerk_client.post("/customers/add/", {f"f{n}": "1" for n in range(4100)})
    assert fields.status_code == 400
    assert "too many fields" in fields.content.decode()
    files = {f"f{n}": SimpleUploadedFile("a", b"x") for n in range(150)}
    assert clerk_client.post("/customers/add/", files).status_code == 400


def test_a_broken_body_is_a_bad_request(clerk_client):
    answer = clerk_client.post("/customers/add/", b"xx", content_type="multipart/form-data")
    assert answer.status_code == 400
    assert "cannot be read" in answer.content.decode()


@pytest.mark.django_db
def test_a_forged_host_is_refused_without_looking_at_the_database(client, django_assert_num_queries):
    with django_assert_num_queries(0):
        answer = client.get("/account/login/", headers={"Host": "elsewhere.test"})
    assert answer.status_code == 400
    assert "elsewhere" not in answer.content.decode()


@pytest.mark.django_db
def test_a_form_without_its_token_says_what_to_do():
    answer = Client(enforce_csrf_checks=True).post("/account/login/", {"login": "a"})
    assert answer.status_code == 403
    assert "reload the page" in answer.content.decode()
