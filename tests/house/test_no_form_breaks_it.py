"""Each form that the owner and the customer reach, filled in with nonsense: never a server error."""

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import transaction
from django.urls import reverse

from demo.loading import load_demo
from office.models import Person, Role
from quoting.models import Quote, Status
from quoting.services import make_link
from tests.conftest import client_of
from tests.house.form_crawl import Form, forms_of

HOSTILE = [
    "", "NaN", "Infinity", "-1", "1e400", "9" * 25, "9" * 5000, "-9223372036854775809", "2147483648",
    "\x00", "x" * 60_000, "<script>alert(1)</script>", "\u202e💧", "9999-12-31", "0001-01-01",
    "['a']", "-5 bar",
]  # fmt: skip
FILES = [
    b"", b"[" * 100_000, b'{"a":' * 100_000, b"\x00", b"\xff\xfe", b"NaN", b"{}", b"[]", b"null", b"9" * 5000,
    b'"\\ud800"', b'{"parts": [null], "suppliers": 1}', b'{"format": "plan/1", "format": "plan/1"}',
    b"a;b\n1;2",
]  # fmt: skip


@pytest.fixture
def browser(db):
    load_demo()
    owner = Person.objects.filter(role=Role.OWNER).first()
    found = client_of(owner)
    found.raise_request_exception = False
    return found


@pytest.fixture
def forms(browser) -> list[Form]:
    offer = (
        Quote.objects.filter(status=Status.ISSUED).first() or Quote.objects.exclude(status="draft").first()
    )
    token = make_link(quote=offer, by=offer.made_by).token
    found = [*forms_of(browser), *forms_of(browser, f"/o/{token}/")]
    return [form for form in found if form.action != reverse("account_logout")]


def send(browser, form: Form, data) -> int:
    """The status of the answer; nothing stays."""
    with transaction.atomic():
        answer = (browser.post if form.method == "post" else browser.get)(form.action, data)
        transaction.set_rollback(True)
    assert not answer.get("Location", "").startswith(reverse("account_login")), "nobody is logged in"
    return answer.status_code


def test_the_crawl_finds_the_forms(forms):
    actions = " ".join(form.action for form in forms)
    for word in (
        "customers",
        "visits",
        "plans",
        "quotes",
        "parts",
        "jobs",
        "people",
        "company",
        "pricing",
        "/o/",
    ):
        assert word in actions, word
    assert len(forms) > 35


def test_all_fields_hostile_at_once(browser, forms):
    broken = [
        (form.action, value[:30])
        for form in forms
        for value in HOSTILE
        if send(browser, form, dict.fromkeys(form.fields, value)) >= 500
    ]
    assert broken == []


def kinds_of_field(form: Form) -> list[str]:
    """One field of each kind: of rows that are alike, those of the first."""
    return list({re.sub(r"\d+", "#", name): name for name in reversed(form.fields)}.values())


def test_one_field_hostile_at_a_time(browser, forms):
    """The others as the page gave them, so that what reads only a sound form is reached."""
    broken = [
        (form.action, name, value[:30])
        for turn, form in enumerate(forms)
        for place, name in enumerate(kinds_of_field(form))
        for value in [HOSTILE[(turn + place) % len(HOSTILE)]]
        if send(browser, form, {**form.fields, name: value}) >= 500
    ]
    assert broken == []


def test_hostile_files(browser, forms):
    takers = [form for form in forms if form.files]
    assert len(takers) >= 2
    broken = [
        (form.action, content[:30])
        for form in takers
        for name in form.files
        for content in FILES
        if send(browser, form, {**form.fields, name: SimpleUploadedFile("a.json", content)}) >= 500
    ]
    assert broken == []
