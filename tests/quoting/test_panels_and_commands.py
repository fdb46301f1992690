"""Quotes on the daily page and on a site's page; the commands."""

import io
from datetime import timedelta

import pytest
from django.core.management import call_command
from django.utils import timezone

from office.navigation import entries_for, panels_for
from quoting.models import Status
from quoting.services import decline
from sites.panels import site_panels

pytestmark = pytest.mark.django_db


def panel(person, title):
    return next((p for p in panels_for(person) if p["title"] == title), None)


def test_offers_that_are_out_are_on_the_daily_page_and_hurry_when_they_run_out(issued, clerk, time_machine):
    assert [row.urgent for row in panel(clerk, "Offers that are out")["rows"]] == [False]
    time_machine.move_to(timezone.now() + timedelta(days=25))
    assert [row.urgent for row in panel(clerk, "Offers that are out")["rows"]] == [True]
    time_machine.move_to(timezone.now() + timedelta(days=10))
    assert panel(clerk, "Offers that are out")["rows"] == []
    issued.refresh_from_db()
    assert issued.status == Status.LAPSED


def test_drafts_and_answers_are_on_the_daily_page(draft, issued, clerk):
    assert len(panel(clerk, "Drafts")["rows"]) == 1
    assert panel(clerk, "Answers")["rows"] == []
    decline(quote=issued, by=clerk, reason="too dear")
    assert "declined" in panel(clerk, "Answers")["rows"][0].detail


def test_installers_see_no_panel_and_no_entry_of_quotes(issued, installer):
    for title in ("Answers", "Offers that are out", "Drafts"):
        assert panel(installer, title) is None
    assert "Quotes" not in {entry["label"] for entry in entries_for(installer, "/")}


def test_pricing_is_in_the_owners_menu_alone(owner, clerk):
    assert "Pricing" in {entry["label"] for entry in entries_for(owner, "/")}
    assert "Pricing" not in {entry["label"] for entry in entries_for(clerk, "/")}


def test_a_sites_page_lists_its_quotes(issued, clerk, installer):
    found = next(p for p in site_panels(clerk, issued.site) if p["title"] == "Quotes")
    assert issued.reference in found["rows"][0].text
    assert found["rows"][0].detail == "€5,707.80"
    assert found["action"] == ("New quote", f"/quotes/new/?site={issued.site_id}")
    assert [p for p in site_panels(installer, issued.site) if p["title"] == "Quotes"] == []


def test_the_command_lapses_what_ran_out(issued, time_machine):
    out = io.StringIO()
    call_command("lapse_quotes", stdout=out)
    assert "0 quotes lapsed" in out.getvalue()
    time_machine.move_to(timezone.now() + timedelta(days=31))
    call_command("lapse_quotes", stdout=out)
    assert "1 quote lapsed" in out.getvalue()
