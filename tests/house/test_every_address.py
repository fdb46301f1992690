"""Every address of the project, read from the resolver: a new page without a guard fails here."""

import re

import pytest
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver

from demo.loading import load_demo

PUBLIC = {
    "health",
    "offer", "offer-pdf", "offer-total", "offer-accept", "offer-decline",  # the customer's own link
}  # fmt: skip
FOR_INSTALLERS = {
    "day",
    "list",
    "job",
    "plan",
    "plan_image",
    "check_off",
    "job-list",
    "job-detail",
    "job-checkoffs",
}
SAMPLES = {"int": "1", "str": "x-1", "slug": "plumber", "uuid": "00000000-0000-4000-8000-000000000000"}


def addresses(patterns=None, prefix="", namespace=""):
    """(namespace, name, path with sample values) of each address outside allauth's."""
    for entry in patterns if patterns is not None else get_resolver().url_patterns:
        route = str(entry.pattern)
        if isinstance(entry, URLResolver):
            if not route.startswith("account/"):
                yield from addresses(entry.url_patterns, prefix + route, entry.namespace or namespace)
        elif isinstance(entry, URLPattern) and "format" not in route:
            yield namespace, entry.name, "/" + fill(prefix + route)


def fill(route: str) -> str:
    """A path of this route: converters by sample, expressions of the API by a number or a code."""
    route = re.sub(r"<(\w+):\w+>", lambda found: SAMPLES[found[1]], route)
    cleaned = route.replace("^", "").replace("$", "")
    while "(?P<" in cleaned:
        head, rest = cleaned.split("(?P<", 1)
        depth, end = 1, 0
        for end, letter in enumerate(rest):  # noqa: B007 - the place is used below
            depth += {"(": 1, ")": -1}.get(letter, 0)
            if depth == 0:
                break
        cleaned = head + "1" + rest[end + 1 :]
    return cleaned


ALL = list(addresses())


def test_the_list_is_not_empty_and_is_filled_in():
    assert len(ALL) > 60
    assert not [path for _, _, path in ALL if "<" in path or "(" in path]


@pytest.mark.django_db
def test_a_stranger_opens_nothing_but_the_public_pages():
    client = Client()
    opened = [
        path
        for _, name, path in ALL
        if name not in PUBLIC
        for method in (client.get, client.post)
        if method(path).status_code not in (302, 401, 403, 404, 405)
    ]
    assert opened == []


@pytest.mark.django_db
def test_what_a_stranger_is_sent_to_is_the_login():
    client = Client()
    for _, name, path in ALL:
        answer = client.get(path)
        if answer.status_code == 302 and name not in PUBLIC:
            assert answer["Location"].startswith("/account/login/"), path


@pytest.mark.django_db
def test_an_installer_opens_only_today_and_jobs(installer_client):
    load_demo()
    opened = [
        path
        for namespace, name, path in ALL
        if not (name in PUBLIC or (name in FOR_INSTALLERS and namespace in ("jobs", "office", "")))
        for method in (installer_client.get, installer_client.post)
        if method(path).status_code not in (401, 403, 404, 405)
    ]
    assert opened == []
