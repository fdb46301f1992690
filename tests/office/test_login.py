"""Login: throttled, with a second factor for those who want one."""

import re

import pytest
from allauth.account.models import EmailAddress
from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal import auth as totp
from django.core.cache import cache
from django.urls import reverse

from office.services import update_person

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


@pytest.mark.django_db
@pytest.mark.parametrize(("proxies", "is_told_apart"), [(0, False), (1, True)])
def test_failed_logins_are_counted_by_the_address_that_can_be_believed(
    client, settings, proxies, is_told_apart
):
    """Without a proxy the header is the caller's own invention; behind one all would share its address."""
    settings.TRUSTED_PROXY_COUNT = proxies
    pages = [
        client.post(
            reverse("account_login"),
            {"login": f"nobody-{place}@example.test", "password": "wrong wrong wrong"},
            headers={"X-Forwarded-For": f"198.51.100.{place}"},
        ).content.decode()
        for place in range(12)
    ]
    assert ("Too many failed login attempts" not in pages[-1]) == is_told_apart


@pytest.mark.django_db
def test_a_proxy_that_sends_no_list_of_addresses_breaks_nothing(client, settings):
    settings.TRUSTED_PROXY_COUNT = 2
    for header in ({}, {"X-Forwarded-For": "198.51.100.1"}, {"X-Forwarded-For": "nonsense"}):
        data = {"login": "nobody@example.test", "password": "wrong wrong wrong"}
        assert client.post(reverse("account_login"), data, headers=header).status_code == 200


@pytest.mark.parametrize("address", ["email/", "confirm-email/", "confirm-email/abc/"])
def test_nobody_changes_the_email_of_a_login_but_the_owner(installer_client, installer, address):
    data = {"email": "mine@example.test", "action_add": ""}
    assert installer_client.get(f"/account/{address}").status_code == 404
    assert installer_client.post(f"/account/{address}", data).status_code == 404


@pytest.mark.django_db
@pytest.mark.parametrize(
    "onward", ["https://elsewhere.test/", "//elsewhere.test", "/\\elsewhere.test", "javascript:alert(1)"]
)
def test_a_login_leads_to_no_other_server(client, clerk, onward):
    data = {"login": clerk.email, "password": PASSWORD, "next": onward}
    assert client.post(reverse("account_login"), data)["Location"] == reverse("office:day")


def test_a_session_known_before_the_login_is_worth_nothing_after_it(client, clerk):
    client.cookies["sessionid"] = "f" * 32
    log_in(client, clerk.email)
    assert client.cookies["sessionid"].value != "f" * 32


def test_an_old_session_is_closed_by_logging_out_and_by_a_new_password(client, clerk, owner):
    log_in(client, clerk.email)
    kept = client.cookies["sessionid"].value
    client.post(reverse("account_logout"))
    client.cookies["sessionid"] = kept
    assert client.get(reverse("office:day")).status_code == 302
    log_in(client, clerk.email)
    update_person(by=owner, person=clerk, fields={}, password="another long secret")
    assert client.get(reverse("office:day")).status_code == 302


def test_asking_for_a_new_password_tells_nobody_who_works_here(client, clerk, mailoutbox):
    answers = [
        client.post(reverse("account_reset_password"), {"email": email})
        for email in (clerk.email, "nobody@example.test")
    ]
    assert answers[0].status_code == answers[1].status_code == 302
    assert answers[0]["Location"] == answers[1]["Location"]
    assert mailoutbox[0].to == [clerk.email]
    link = re.search(r"http://testserver(/\S+)", mailoutbox[0].body)[1]
    page = client.get(link, follow=True)
    data = {"password1": "another long secret", "password2": "another long secret"}
    client.post(page.request["PATH_INFO"], data)
    assert log_in(client, clerk.email, "another long secret").status_code == 302


def test_everybody_finds_password_and_second_factor_from_today(installer_client):
    """On a phone the menu has no room for the name that leads there."""
    page = installer_client.get(reverse("office:day")).content.decode()
    for name in ("account_change_password", "mfa_index"):
        assert f'href="{reverse(name)}"' in page
        assert installer_client.get(reverse(name)).status_code == 200


def test_an_email_that_nobody_confirmed_does_not_stand_in_the_way_of_a_second_factor(client, clerk):
    EmailAddress.objects.create(user=clerk, email=clerk.email, verified=False)
    log_in(client, clerk.email)
    client.post(reverse("account_reauthenticate"), {"password": PASSWORD})
    assert client.get(reverse("mfa_activate_totp")).status_code == 200
