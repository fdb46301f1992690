"""The demo loads through the services into an empty database, once, and stands as promised."""

import pytest
from django.core.management import call_command

from demo.loading import load_demo
from demo.people import LOGINS
from jobs.models import Job
from quoting.models import Quote, Status
from sites.models import Customer, Site, Visit


@pytest.mark.django_db
def test_the_demo_holds_two_gardens_and_an_empty_customer():
    load_demo()
    assert Customer.objects.count() == 3
    assert {site.units for site in Site.objects.exclude(visits=None)} == {"metric", "us"}
    assert set(Quote.objects.values_list("status", flat=True)) == {Status.ACCEPTED, Status.ISSUED}
    assert Job.objects.count() == 1
    spare = Site.objects.get(visits=None)
    assert spare.plans.count() == 1
    assert not Quote.objects.filter(site=spare).exists()


@pytest.mark.django_db
def test_readings_stand_in_the_unit_in_which_they_were_typed():
    load_demo()
    assert Visit.objects.get(site__units="us").static_text == "58 psi"
    assert Visit.objects.get(site__units="metric").static_text == "4.3 bar"


@pytest.mark.django_db
def test_a_second_load_changes_nothing(capsys):
    call_command("load_demo")
    call_command("load_demo")
    assert Customer.objects.count() == 3
    assert "kept" in capsys.readouterr().out


@pytest.mark.django_db
def test_each_login_opens_the_daily_page(client):
    load_demo()
    for login in LOGINS:
        client.post("/account/login/", {"login": login.email, "password": login.password})
        assert client.get("/").status_code == 200
        client.logout()
