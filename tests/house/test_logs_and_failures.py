"""What a failure shows, and what the logs keep to themselves."""

import logging
from types import SimpleNamespace

import pytest
from django.core.management import CommandError, call_command
from django.db import IntegrityError, OperationalError

from config.gunicorn_log import MaskedLogger
from config.masking import NoTokens, masked
from demo.loading import is_loaded
from office import views
from parts import api

TOKEN = "Ab1_-~x.y"


@pytest.mark.parametrize(
    "path", [f"/o/{TOKEN}/", f"/o/{TOKEN}/accept/?a=1", f"/account/password/reset/key/3-{TOKEN}/"]
)
def test_an_address_that_opens_something_is_masked(path):
    assert TOKEN not in masked(f"Gone: {path}")
    assert masked("Gone: /quotes/12/") == "Gone: /quotes/12/"


@pytest.mark.django_db
def test_the_log_of_a_refused_link_does_not_hold_it(client, caplog):
    with caplog.at_level(logging.WARNING):
        caplog.handler.addFilter(NoTokens())
        client.get(f"/o/{TOKEN}/")
    assert caplog.messages
    assert TOKEN not in caplog.text


def test_the_console_is_masked(settings):
    assert settings.LOGGING["handlers"]["console"]["filters"] == ["no_tokens"]


def test_the_access_log_does_not_hold_it_either():
    from gunicorn.config import Config

    path = f"/o/{TOKEN}/"
    environ = {
        "REQUEST_METHOD": "GET",
        "RAW_URI": path,
        "PATH_INFO": path,
        "SERVER_PROTOCOL": "HTTP/1.1",
        "HTTP_REFERER": f"https://x.test{path}",
    }
    response = SimpleNamespace(status="200 OK", sent=1, headers=[], response_length=1)
    request = SimpleNamespace(headers=[])
    took = SimpleNamespace(seconds=0, microseconds=1)
    atoms = MaskedLogger(Config()).atoms(response, request, environ, took)
    assert atoms["r"] == "GET /o/***/ HTTP/1.1"
    assert TOKEN not in str({name: atoms[name] for name in "rUf"})


def fails_with(monkeypatch, error):
    def fail(*args, **kwargs):
        raise error

    monkeypatch.setattr(views, "panels_for", fail)
    monkeypatch.setattr(api, "parts_for", fail)


def test_a_failure_is_said_kindly_and_without_its_cause(clerk_client, monkeypatch):
    fails_with(monkeypatch, RuntimeError("secret cause"))
    clerk_client.raise_request_exception = False
    page, data = clerk_client.get("/"), clerk_client.get("/api/parts/")
    assert page.status_code == data.status_code == 500
    assert "Something broke on our side" in page.content.decode()
    assert data.json() == {"detail": "Something broke on our side; nothing was saved by half."}
    assert b"secret cause" not in page.content + data.content


@pytest.mark.parametrize(
    ("error", "status", "words"),
    [(IntegrityError("unique"), 409, "at the same moment"), (OperationalError("locked"), 503, "busy")],
)
def test_what_met_in_the_database_is_said(clerk_client, monkeypatch, caplog, error, status, words):
    fails_with(monkeypatch, error)
    page, data = clerk_client.get("/"), clerk_client.get("/api/parts/")
    assert page.status_code == data.status_code == status
    assert words in page.content.decode()
    assert words in data.json()["detail"]
    assert str(error) in caplog.text


@pytest.mark.django_db
def test_the_demo_with_its_public_passwords_is_for_a_machine_of_ones_own(settings):
    settings.PLAIN_HTTP = False
    with pytest.raises(CommandError, match="make demo"):
        call_command("load_demo")
    assert not is_loaded()
