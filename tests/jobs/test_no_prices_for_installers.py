"""No sum of the quote reaches an installer, by whatever way."""

import json

import pytest
from django.urls import reverse

from jobs.snapshot import job_snapshot
from tests.jobs.makers import MONEY, make_job, make_quote

pytestmark = pytest.mark.django_db


def assert_no_money(text):
    found = [sum_ for sum_ in MONEY if sum_ in text]
    assert not found
    for word in ("price", "unit_cost", "margin", "EUR", "€"):
        assert word not in text, word


def test_the_seal_holds_money_so_that_this_can_fail():
    content = make_quote().seal.content
    assert all(sum_ in content for sum_ in MONEY)


def test_the_snapshot_holds_none():
    assert_no_money(json.dumps(job_snapshot(make_quote()), ensure_ascii=False))


def test_fields_slipped_into_plan_or_report_are_not_taken():
    quote = make_quote()
    content = quote.seal.sealed
    content["report"]["price"] = "5914.27"
    content["report"]["trench"][0]["price"] = "5914.27"
    quote.seal.content = json.dumps(content)
    assert_no_money(json.dumps(job_snapshot(quote)))


@pytest.mark.parametrize("name", ["jobs:job", "jobs:plan"])
def test_pages_of_the_installer(installer_client, name):
    job = make_job("demo/plans/quince-house.json")
    page = installer_client.get(reverse(name, args=[job.pk]))
    assert page.status_code == 200
    assert_no_money(page.content.decode())


def test_list_and_daily_page(installer_client):
    make_job()
    for url in (reverse("jobs:list"), reverse("office:day")):
        assert_no_money(installer_client.get(url).content.decode())


def test_api(installer_client):
    job = make_job()
    for url in ("/api/jobs/", f"/api/jobs/{job.pk}/", f"/api/jobs/{job.pk}/checkoffs/"):
        answer = installer_client.get(url)
        assert answer.status_code == 200
        assert_no_money(answer.content.decode())


def test_a_sum_typed_into_words_is_left_out(installer_client):
    job = make_job()
    text = installer_client.get(reverse("jobs:job", args=[job.pk])).content.decode()
    assert "A bonus worth (sum left out) is on us." in text
    assert "Credit (sum left out)" in text
