"""Login: throttled, with a second factor for those who want one."""

import pytest
from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal import auth as totp
from django.core.cache import cache
from django.urls import reverse

PASSWORD = "correct horse battery"


@pytest.fixture(autouse=True)
def _empty_cache():
    cache.clear()
    yield
    cache.clear()


def log_in(client, email, password=PASSWORD):
    return client.post(reverse("account_login"), {"login": email, "password": password})


def test_the_right_password_opens_today(client, clerk):
    answer = log_in(client, clerk.email)
    assert answer.status_code == 302
    assert answer["Location"] == reverse("office:day")


def test_a_wrong_password_keeps_the_email_typed(client, clerk):
    answer = log_in(client, clerk.email, "wrong wrong wrong")
    assert clerk.email in answer.content.decode()
    assert client.get(reverse("office:day")).status_code == 302


def test_guessing_is_throttled_even_for_the_right_password(client, clerk):
    for _ in range(6):
        log_in(client, clerk.email, "wrong wrong wrong")
    answer = log_in(client, clerk.email)
    assert answer.status_code in (200, 429)
    assert "Too many failed login attempts" in answer.content.decode()
    assert client.get(reverse("office:day")).status_code == 302


def test_a_second_factor_is_asked_for_once_it_is_set(client, clerk):
    secret = totp.generate_totp_secret()
    Authenticator.objects.create(
        user=clerk,
        type=Authenticator.Type.TOTP,
        data={"secret": get_adapter().encrypt(secret)},
    )
    answer = log_in(client, clerk.email)
    assert answer.status_code == 302
    assert answer["Location"] == reverse("mfa_authenticate")
    assert client.get(reverse("office:day")).status_code == 302
    code = totp.format_hotp_value(totp.hotp_value(secret, next(totp.yield_hotp_counters_from_time())))
    client.post(reverse("mfa_authenticate"), {"code": code})
    assert client.get(reverse("office:day")).status_code == 200


def test_the_second_factor_is_set_up_after_the_password_is_typed_again(client, clerk):
    log_in(client, clerk.email)
    assert "Two-Factor" in client.get(reverse("mfa_index")).content.decode()
    asked = client.get(reverse("mfa_activate_totp"))
    assert asked["Location"].startswith(reverse("account_reauthenticate"))
    client.post(asked["Location"], {"password": PASSWORD})
    page = client.get(reverse("mfa_activate_totp"))
    assert page.status_code == 200
    assert "data:image/svg+xml" in page.content.decode()


@pytest.mark.django_db
def test_a_lost_session_leads_back_to_the_page_that_was_open(client):
    answer = client.get(
        reverse("office:day"),
        headers={"HX-Request": "true", "HX-Current-URL": "http://testserver/jobs/7/?x=1"},
    )
    assert answer.status_code == 401
    assert answer["HX-Redirect"] == f"{reverse('account_login')}?next=/jobs/7/%3Fx%3D1"
