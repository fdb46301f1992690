"""Shared set-up: test-only settings, and the cast of people that page tests use."""

import os
import tempfile

os.environ.setdefault("TRENCHBOOK_SECRET_KEY", "only-for-tests-not-a-secret-0123456789-abcdefghijklmnopqrstuvwxyz")
os.environ.setdefault("TRENCHBOOK_PLAIN_HTTP", "yes")
os.environ.setdefault("TRENCHBOOK_ALLOWED_HOSTS", "testserver,localhost,127.0.0.1")
os.environ.setdefault("TRENCHBOOK_DATA_DIR", tempfile.mkdtemp(prefix="trenchbook-test-"))
os.environ.setdefault("DATABASE_URL", f"sqlite:///{os.environ['TRENCHBOOK_DATA_DIR']}/test.sqlite3")
# The journeys' live server and Playwright's loop share a thread.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

import pytest  # noqa: E402  (the settings read the environment at import)
from django.test import Client  # noqa: E402


def pytest_addoption(parser):
    parser.addoption("--database-only", action="store_true", help="only the tests that touch the database")


def _touches_database(item) -> bool:
    return bool({"db", "transactional_db"} & set(item.fixturenames)) or any(item.iter_markers("django_db"))


def pytest_collection_modifyitems(config, items):
    if config.getoption("--database-only"):
        left_out = [item for item in items if not _touches_database(item)]
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if _touches_database(item)]


@pytest.fixture(scope="session")
def django_db_modify_db_settings():
    """SQLite in a file, as in production: threads then contend for it as they really would."""
    from django.db import connections

    settings_dict = connections["default"].settings_dict
    if settings_dict["ENGINE"].endswith("sqlite3"):
        settings_dict["TEST"]["NAME"] = f"{os.environ['TRENCHBOOK_DATA_DIR']}/under-test.sqlite3"


@pytest.fixture(autouse=True)
def _fast_settings(settings):
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    }
    settings.CACHES = {"default": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}}
    settings.EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"


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
