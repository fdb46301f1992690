"""From a quote that the quoting app itself drafted, issued and had accepted."""

import json

import pytest
from django.urls import reverse

from jobs.models import Job
from quoting.services import Signature, accept_by_link, make_link
from tests.quoting.factories import make_accepted, make_issued

pytestmark = pytest.mark.django_db


def sums_of(quote):
    """Every sum of the offer and of its lines, as pages would write them."""
    lines = quote.lines.all()
    sums = {
        quote.total,
        quote.net,
        quote.tax,
        *(line.price for line in lines),
        *(line.cost for line in lines),
    }
    return {str(value) for value in sums if value and value >= 10}


def test_acceptance_on_paper_makes_a_job_without_a_price(clerk, installer_client):
    quote = make_accepted(clerk)
    job = Job.objects.get(quote=quote)
    assert job.tasks.filter(kind="head").count() == 15
    assert job.snapshot["scope"]
    sums = sums_of(quote)
    assert len(sums) > 10
    pages = [
        json.dumps(job.snapshot),
        installer_client.get(reverse("jobs:job", args=[job.pk])).content.decode(),
        installer_client.get(f"/api/jobs/{job.pk}/").content.decode(),
    ]
    for text in pages:
        assert not [value for value in sums if value in text]
        for code in ('"unit_cost"', '"supplier"', '"price"', '"cost"', "markup"):
            assert code not in text


def test_acceptance_by_the_customers_link_makes_a_job(clerk):
    quote = make_issued(clerk)
    link = make_link(quote=quote, by=clerk).link
    accept_by_link(link=link, signature=Signature("Ada Example"))
    assert Job.objects.get().quote_id == quote.pk


def test_the_site_page_shows_the_job(clerk, clerk_client):
    quote = make_accepted(clerk)
    page = clerk_client.get(reverse("sites:site", args=[quote.site_id]))
    assert reverse("jobs:office", args=[Job.objects.get().pk]) in page.content.decode()
