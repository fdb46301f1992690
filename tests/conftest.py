"""Shared set-up: the database-only run, and the cast of people that page tests use."""

import pytest
from django.test import Client


def pytest_addoption(parser):
    parser.addoption("--database-only", action="store_true", help="only the tests that touch the database")


def _touches_database(item) -> bool:
    return bool({"db", "transactional_db"} & set(item.fixturenames)) or any(item.iter_markers("django_db"))


def pytest_collection_modifyitems(config, items):
    if config.getoption("--database-only"):
        left_out = [item for item in items if not _touches_database(item)]
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if _touches_database(item)]


def _person(email, role, name):
    from office.models import Person

    return Person.objects.create_user(email, "correct horse battery", name=name, role=role)


@pytest.fixture
def owner(db):
    return _person("owner@example.test", "owner", "Olga Test")


@pytest.fixture
def clerk(db):
    return _person("office@example.test", "office", "Ola Test")


@pytest.fixture
def installer(db):
    return _person("installer@example.test", "installer", "Ivo Test")


def client_of(person) -> Client:
    """A browser in which this person is logged in."""
    client = Client()
    client.force_login(person, backend="allauth.account.auth_backends.AuthenticationBackend")
    return client


@pytest.fixture
def owner_client(owner):
    return client_of(owner)


@pytest.fixture
def clerk_client(clerk):
    return client_of(clerk)


@pytest.fixture
def installer_client(installer):
    return client_of(installer)
