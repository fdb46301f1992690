"""The API as a client meets it: over WSGI, with a session."""

from collections.abc import Callable

import pytest
import schemathesis
from django.conf import settings
from django.core.signals import request_finished, request_started
from django.core.wsgi import get_wsgi_application
from django.db import close_old_connections, transaction

from demo.loading import load_demo
from office.models import Person, Role
from tests.conftest import client_of

CSRF = "c" * 32


def as_browser_of(person: Person) -> Callable:
    """The application, met with the cookies and the token of this person's browser."""
    session = client_of(person).cookies[settings.SESSION_COOKIE_NAME].value
    application = get_wsgi_application()

    def logged_in(environ, start_response):
        environ["HTTP_COOKIE"] = (
            f"{settings.SESSION_COOKIE_NAME}={session}; {settings.CSRF_COOKIE_NAME}={CSRF}"
        )
        environ["HTTP_X_CSRFTOKEN"] = CSRF
        return application(environ, start_response)

    return logged_in


@pytest.fixture(scope="module")
def _demo(django_db_setup, django_db_blocker):
    """The demo, loaded once for all requests of a module; each test's own transaction nests inside."""
    with django_db_blocker.unblock(), transaction.atomic():
        load_demo()
        yield
        transaction.set_rollback(True)


@pytest.fixture
def _kept_connection():
    """Requests run in the test's transaction, whose connection must live on, as with Django's own client."""
    signals = (request_started, request_finished)
    for signal in signals:
        signal.disconnect(close_old_connections)
    yield
    for signal in signals:
        signal.connect(close_old_connections)


@pytest.fixture
def api_schema(_demo, db, _kept_connection):
    owner = Person.objects.filter(role=Role.OWNER).first()
    return schemathesis.openapi.from_wsgi("/api/schema/?format=json", as_browser_of(owner))
