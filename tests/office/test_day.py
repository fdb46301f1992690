"""The daily page: what a day begins with, and the trail in words."""

from django.urls import reverse

from office.models import AuditEvent


def test_office_staff_find_or_add_a_customer_from_today(clerk_client):
    page = clerk_client.get(reverse("office:day")).content.decode()
    assert f'action="{reverse("sites:customers")}"' in page
    assert reverse("sites:customer-add") in page


def test_an_installer_does_not(installer_client):
    page = installer_client.get(reverse("office:day")).content.decode()
    assert reverse("sites:customer-add") not in page
    assert reverse("sites:customers") not in page


def test_what_is_typed_there_reaches_the_search(clerk_client):
    page = clerk_client.get(reverse("sites:customers"), {"q": "nobody of that name"}).content.decode()
    assert 'value="nobody of that name"' in page


def test_the_trail_speaks_in_words():
    event = AuditEvent(verb="quote.line.edited", subject="quote:17")
    assert (event.words, event.number) == ("Quote line edited", "17")
