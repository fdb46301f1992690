"""The page that compares two plan revisions, with the price difference that the quoting app adds."""

import pytest
from django.urls import reverse

from quoting.drafting import draft_quote, rates_now
from quoting.errors import PlanNotPriceable
from quoting.plan_prices import plan_price
from sites.services import add_plan_revision
from tests.sites.makers import make_customer, make_plan, make_site, plan_document, take_in_parts


@pytest.fixture
def first(db):
    take_in_parts()
    return make_plan(make_site(make_customer()), name="As measured")


@pytest.fixture
def second(first):
    """One head of the corner less, with its 6 m of pipe."""
    document = plan_document()
    layout = document["layout"]
    layout["nodes"] = [node for node in layout["nodes"] if node["id"] != "A5"]
    layout["pipes"] = [pipe for pipe in layout["pipes"] if "A5" not in (pipe["from"], pipe["to"])]
    return add_plan_revision(
        site=first.site, document=document, began_from=1, by=None, name="<b>One less</b>"
    )


def page_of(client, site, query=""):
    return client.get(reverse("sites:compare", args=[site.pk]) + query)


def test_the_newest_is_compared_with_the_one_before(clerk_client, second):
    text = page_of(clerk_client, second.site).content.decode()
    assert "&lt;b&gt;One less" in text
    assert "Head A5" in text
    assert "6.00 m" in text
    assert 'id="before-A5"' in text
    assert 'id="after-A5"' not in text


def test_the_price_difference_is_that_of_two_quotes(clerk_client, clerk, first, second):
    prices = [plan_price(plan, rates_now()) for plan in (first, second)]
    quotes = [draft_quote(plan=plan, by=clerk) for plan in (first, second)]
    assert [price.net for price in prices] == [quote.net for quote in quotes]
    assert prices[1].net < prices[0].net
    text = page_of(clerk_client, second.site).content.decode()
    assert "Price before tax" in text
    assert f"{prices[0].net:,.2f}" in text


def test_a_plan_that_cannot_be_priced_says_why(clerk_client, first, second, monkeypatch):
    def refuse(*args, **kwargs):
        raise PlanNotPriceable("Nobody has a price for pipe.")

    monkeypatch.setattr("quoting.plan_prices.work_out", refuse)
    text = page_of(clerk_client, second.site).content.decode()
    assert "Nobody has a price for pipe." in text
    assert "Price before tax" not in text


@pytest.mark.parametrize(
    "query", ["?before=1&after=1", "?before=x&after=", "?after=2", "?before=99999999999"]
)
def test_any_pair_can_be_asked_for(clerk_client, second, query):
    assert page_of(clerk_client, second.site, query).status_code == 200


def test_a_revision_that_is_not_there_is_not_found(clerk_client, second):
    assert page_of(clerk_client, second.site, "?before=7&after=1").status_code == 404


def test_a_site_without_plans_says_so(clerk_client, db):
    assert "no plan yet" in page_of(clerk_client, make_site(make_customer())).content.decode()


def test_only_the_office_compares(installer_client, client, second):
    assert page_of(installer_client, second.site).status_code in (403, 404)
    assert page_of(client, second.site).status_code == 302


def test_us_sites_read_feet(clerk_client, second):
    type(second.site).objects.filter(pk=second.site.pk).update(units="us")
    assert "19 ft 8" in page_of(clerk_client, second.site).content.decode()
