"""A site with the demo's parts book around it, and the address of its board."""

import json

import pytest

from tests.sites.makers import make_customer, make_plan, make_site, take_in_parts


@pytest.fixture
def parts_book(db):
    return take_in_parts()


@pytest.fixture
def site(parts_book):
    return make_site(make_customer())


@pytest.fixture
def us_site(parts_book):
    return make_site(make_customer(), name="Cabin", units="us")


@pytest.fixture
def plan(site):
    return make_plan(site)


@pytest.fixture
def send(clerk_client, site):
    """Post a JSON body to one of the board's addresses, as the page does."""

    def post(name, body, client=clerk_client, place=site):
        text = body if isinstance(body, str | bytes) else json.dumps(body)
        return client.post(f"/sites/{place.pk}/board/{name}/", text, content_type="application/json")

    return post
