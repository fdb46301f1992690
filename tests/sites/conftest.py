"""A site with the demo's parts book around it."""

import pytest

from tests.sites.makers import make_customer, make_plan, make_site, take_in_parts


@pytest.fixture
def parts_book(db):
    return take_in_parts()


@pytest.fixture
def customer(db):
    return make_customer()


@pytest.fixture
def site(customer):
    return make_site(customer)


@pytest.fixture
def us_site(customer):
    return make_site(customer, name="Cabin", units="us")


@pytest.fixture
def plan(site, parts_book):
    return make_plan(site)
