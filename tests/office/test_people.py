"""Adding and changing the people who work here."""

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse

from office import services
from office.models import AuditEvent, Person


def fields(**changed):
    return {
        "name": "Nia New",
        "email": "Nia@Example.test",
        "role": "installer",
        "is_active": "on",
        "password": "spade trench valve",
        **changed,
    }


def test_the_owner_adds_a_person_who_can_then_log_in(owner_client, client):
    assert owner_client.post(reverse("office:person_add"), fields()).status_code == 302
    answer = client.post(
        reverse("account_login"), {"login": "nia@example.test", "password": "spade trench valve"}
    )
    assert answer.status_code == 302
    assert AuditEvent.objects.filter(verb="person.added").exists()


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"password": "short"}, "at least 12 characters"),
        ({"password": ""}, "A new person needs a password."),
        ({"email": "owner@example.test"}, "Somebody here has this e-mail already."),
        ({"email": "not an address"}, "valid email"),
        ({"role": "king"}, "king is not one of the available choices"),
        ({"name": ""}, "This field is required."),
        ({"name": "x" * 400}, "at most 150 characters"),
    ],
)
def test_bad_input_gets_a_sentence_and_keeps_what_was_typed(owner_client, wrong, sentence):
    answer = owner_client.post(reverse("office:person_add"), fields(**wrong))
    assert answer.status_code == 422
    text = answer.content.decode()
    assert sentence in text
    assert fields(**wrong)["name"] in text
    assert Person.objects.count() == 1


def test_a_login_can_be_closed_and_then_fails(owner_client, installer, client):
    url = reverse("office:person_edit", args=[installer.pk])
    data = {"name": installer.name, "email": installer.email, "role": "installer", "password": ""}
    assert owner_client.post(url, data).status_code == 302
    client.post(reverse("account_login"), {"login": installer.email, "password": "correct horse battery"})
    assert client.get(reverse("office:day")).status_code == 302


def test_the_last_owner_stays_owner(owner):
    with pytest.raises(ValidationError, match="One owner must remain"):
        services.update_person(by=owner, person=owner, fields={"role": "office"})
    with pytest.raises(ValidationError, match="One owner must remain"):
        services.update_person(by=owner, person=owner, fields={"is_active": False})
    owner.refresh_from_db()
    assert owner.is_owner
    assert owner.is_active
