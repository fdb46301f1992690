"""Customers and sites: found, added, edited without overwriting each other."""

import pytest
from django.urls import reverse

from sites.models import Customer, Site
from sites.search import search_customers
from tests.sites.makers import make_customer, make_site

pytestmark = pytest.mark.django_db


def pages(customer, site):
    return [
        reverse("sites:customers"), reverse("sites:customer-add"),
        reverse("sites:customer", args=[customer.pk]), reverse("sites:customer-edit", args=[customer.pk]),
        reverse("sites:site-add", args=[customer.pk]), reverse("sites:site", args=[site.pk]),
        reverse("sites:site-edit", args=[site.pk]),
    ]  # fmt: skip


def test_who_may_open_the_pages(customer, site, owner_client, clerk_client, installer_client, client):
    for address in pages(customer, site):
        assert owner_client.get(address).status_code == 200
        assert clerk_client.get(address).status_code == 200
        assert installer_client.get(address).status_code == 403
        assert client.get(address)["Location"].startswith("/account/login/")
        assert owner_client.delete(address).status_code == 405


def test_what_is_missing_is_a_404(owner_client):
    for name in ("sites:customer", "sites:customer-edit", "sites:site", "sites:site-edit", "sites:site-add"):
        for pk in (999, 10**30):
            assert owner_client.get(reverse(name, args=[pk])).status_code == 404


@pytest.mark.parametrize(
    "words",
    ["teal", "MARA TEAL", "030 1234567", "+49 30 123 45 67", "0049301234567", "123-45", "mill lane",
     "lin mara", "12345", "Ähren", "ÄHREN"],
)  # fmt: skip
def test_a_customer_is_found_however_it_is_asked(words):
    wanted = make_customer(street="3 Mill Lane", town="Linden", postcode="12345")
    make_site(wanted, street="Ährenweg 4")
    make_customer(name="Somebody Else", phone="+44 20 7946 0000")
    assert list(search_customers(Customer.objects.all(), words)) == [wanted]


@pytest.mark.parametrize(
    "words", ["zzz", "mara zzz", "999999999", "\x00", "%", "_", "'; drop table", "x" * 5000]
)
def test_nothing_is_found_in_peace(owner_client, words):
    make_customer()
    answer = owner_client.get(reverse("sites:customers"), {"q": words})
    assert answer.status_code == 200
    assert ("Mara Teal" in answer.content.decode()) is (words == "\x00")


def test_search_as_one_types_sends_the_rows_only(customer, owner_client):
    page = owner_client.get(reverse("sites:customers"), {"q": "teal"}, headers={"HX-Request": "true"})
    assert "<html" not in page.content.decode()
    assert "Mara Teal" in page.content.decode()


def test_the_list_takes_the_same_queries_for_many(owner_client, django_assert_max_num_queries):
    for number in range(40):
        make_site(make_customer(name=f"Customer {number}"))
    with django_assert_max_num_queries(6):
        owner_client.get(reverse("sites:customers"), {"q": "customer"})


def test_the_customer_page_takes_the_same_queries_for_many_sites(
    customer, owner_client, django_assert_max_num_queries
):
    for number in range(10):
        make_site(customer, name=f"Site {number}")
    with django_assert_max_num_queries(6):
        owner_client.get(reverse("sites:customer", args=[customer.pk]))


def typed(row, fields, **changed):
    return {**{name: getattr(row, name) for name in fields}, "began_from": row.version, **changed}


CUSTOMER = ["name", "phone", "email", "street", "postcode", "town", "country", "notes"]
SITE = ["name", "units", "street", "postcode", "town", "country", "authority_notes", "access_notes"]


def test_a_customer_and_a_site_are_added(owner_client):
    answer = owner_client.post(reverse("sites:customer-add"), {"name": "Ines Okoro", "country": "de"})
    customer = Customer.objects.get(name="Ines Okoro")
    assert answer["Location"] == reverse("sites:customer", args=[customer.pk])
    assert customer.country == "DE"
    data = {"name": "Yard", "units": "us", "authority_notes": "Ask the town."}
    answer = owner_client.post(reverse("sites:site-add", args=[customer.pk]), data)
    assert answer["Location"] == reverse("sites:site", args=[customer.sites.get().pk])


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("name", "", "required"), ("name", "x" * 201, "at most 200"), ("email", "nobody", "valid email"),
        ("phone", "1" * 41, "at most 40"), ("country", "D3", "two letters"),
        ("notes", "x" * 5001, "at most 5000"), ("name", "a\x00b", "Null characters"),
    ],
)  # fmt: skip
def test_a_bad_customer_gets_a_sentence_and_keeps_what_was_typed(owner_client, field, value, sentence):
    data = {"name": "Ines Okoro", "street": "Kept Street 7", field: value}
    answer = owner_client.post(reverse("sites:customer-add"), data)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert "Kept Street 7" in answer.content.decode()
    assert not Customer.objects.exists()


def test_a_bad_site_gets_a_sentence(customer, owner_client):
    data = {"name": "Yard", "units": "furlongs", "access_notes": "Kept gate"}
    answer = owner_client.post(reverse("sites:site-add", args=[customer.pk]), data)
    assert answer.status_code == 422
    assert "not one of the available choices" in answer.content.decode()
    assert "Kept gate" in answer.content.decode()


def test_a_body_of_ten_megabytes_is_refused(customer, owner_client):
    address = reverse("sites:customer-edit", args=[customer.pk])
    answer = owner_client.post(address, typed(customer, CUSTOMER, notes="x" * 10_000_000))
    assert answer.status_code in (400, 413)
    assert Customer.objects.get().version == 1


@pytest.mark.parametrize("began_from", ["", "many", "-1", "0", "9" * 30])
def test_a_save_without_its_version_overwrites_nothing(customer, owner_client, began_from):
    address = reverse("sites:customer-edit", args=[customer.pk])
    answer = owner_client.post(address, typed(customer, CUSTOMER, name="Other", began_from=began_from))
    assert answer.status_code in (409, 422)
    assert Customer.objects.get().name == "Mara Teal"


@pytest.mark.parametrize(
    ("name", "fields", "model"), [("customer", CUSTOMER, Customer), ("site", SITE, Site)]
)
def test_a_clash_shows_both_versions_and_loses_neither(
    customer, site, owner_client, clerk_client, name, fields, model
):
    row = customer if name == "customer" else site
    address = reverse(f"sites:{name}-edit", args=[row.pk])
    assert owner_client.post(address, typed(row, fields, street="First Street")).status_code == 302
    answer = clerk_client.post(address, typed(row, fields, street="Second Street"))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "First Street" in page
    assert 'value="Second Street"' in page
    assert model.objects.get(pk=row.pk).street == "First Street"
    again = clerk_client.post(address, typed(row, fields, street="Second Street", began_from=2))
    assert again.status_code == 302
    assert model.objects.get(pk=row.pk).street == "Second Street"


def test_other_apps_fill_boxes_on_the_site_page(site, owner_client, monkeypatch):
    from office.navigation import PanelRow
    from sites import panels

    monkeypatch.setattr(panels, "_panels", [])
    panels.add_site_panel("Empty box", lambda person, site: [], empty="Nothing in it.")
    panels.add_site_panel(
        "Full box",
        lambda person, site: [PanelRow(f"row of {site.name}", "/x/")],
        empty="",
        action=lambda person, site: ("Do it", "/do/"),
    )
    panels.add_site_panel("Owner's box", lambda person, site: [], empty="", audience="is_superuser")
    page = owner_client.get(reverse("sites:site", args=[site.pk])).content.decode()
    for text in ("Empty box", "Nothing in it.", "row of House", 'href="/do/"'):
        assert text in page
    assert "Owner&#x27;s box" not in page
