"""Who may open which page of the office app."""

import pytest
from django.test import Client
from django.urls import reverse

from office.models import Person

PASSWORD = "correct horse battery"
OWNER_PAGES = ["office:company", "office:people", "office:person_add", "office:audit"]


@pytest.mark.parametrize("name", OWNER_PAGES)
def test_the_owner_opens_it(owner_client, name):
    assert owner_client.get(reverse(name)).status_code == 200


@pytest.mark.parametrize("name", OWNER_PAGES)
def test_office_staff_and_installers_do_not(clerk_client, installer_client, name):
    assert clerk_client.get(reverse(name)).status_code == 403
    assert installer_client.get(reverse(name)).status_code == 403


@pytest.mark.django_db
@pytest.mark.parametrize("name", [*OWNER_PAGES, "office:day"])
def test_a_stranger_is_sent_to_the_login(name):
    response = Client().get(reverse(name))
    assert response.status_code == 302
    assert response["Location"].startswith(reverse("account_login"))


def test_everybody_who_works_here_opens_today(owner_client, clerk_client, installer_client):
    for client in (owner_client, clerk_client, installer_client):
        assert client.get(reverse("office:day")).status_code == 200


@pytest.mark.parametrize("name", ["office:day", "office:people", "office:audit"])
def test_pages_that_only_show_refuse_a_post(owner_client, name):
    assert owner_client.post(reverse(name)).status_code == 405


def test_a_person_can_be_edited_by_the_owner_only(owner_client, clerk_client, installer, clerk):
    url = reverse("office:person_edit", args=[installer.pk])
    assert owner_client.get(url).status_code == 200
    assert clerk_client.get(url).status_code == 403
    assert clerk_client.post(url, {"name": "x"}).status_code == 403


@pytest.mark.django_db
def test_nobody_can_sign_up():
    response = Client().post(
        "/account/signup/",
        {"email": "new@example.test", "password1": PASSWORD, "password2": PASSWORD},
    )
    assert not Person.objects.filter(email="new@example.test").exists()
    assert response.status_code in (200, 302, 403)
