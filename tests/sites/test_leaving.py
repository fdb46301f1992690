"""The page before leaving a site: fragile readings, what is missing, closing, the owner's own figure."""

import math
import re

import pytest
from django.urls import reverse

from design import varied_ground
from design.fragile import Fragile
from design.survey.reduce import reduce_plane
from sites.leaving import fragile_readings, ground_of_visit
from sites.leaving_page import fragile_rows
from sites.models import SheetEntry
from sites.survey_services import save_survey
from tests.sites.makers import make_plan, make_visit

# Site S1 of a plain rectangle: fixed corners (4, 15) and (20, 15), a lawn of 24 m x 12 m.
MARKS, CORNERS = {"A": (4, 15), "B": (20, 15)}, {"1": (0, 0), "2": (24, 0), "3": (24, 12), "4": (0, 12)}


def length(metres):
    return {"text": f"{metres:g} m", "m": metres}


def tie(name, at):
    first, second = (round(math.dist(MARKS[mark], at), 2) for mark in ("A", "B"))
    return {
        "point": name, "first": "A", "first_tape": length(first),
        "second": "B", "second_tape": length(second), "side": "right",
    }  # fmt: skip


@pytest.fixture
def visit(site, parts_book):
    return make_visit(site)


@pytest.fixture
def measured(visit):
    return measure(visit, CORNERS)


def measure(visit, corners):
    document = {
        "marks": [
            {"name": "A", "east": length(4), "north": length(15)},
            {"name": "B", "off": "A", "distance": length(16)},
        ],
        "ties": [tie(name, at) for name, at in corners.items()],
        "outlines": [{"id": "lawn", "becomes": "area", "kind": "turf", "points": list(corners)}],
    }
    save_survey(visit=visit, part="plane", document=document, began_from=0, by=None)
    return visit


def page_of(client, visit, name="leaving"):
    return client.get(reverse(f"sites:{name}", args=[visit.pk])).content.decode()


def test_what_is_missing_is_named_with_why_and_where(clerk_client, visit):
    text = page_of(clerk_client, visit)
    assert "needed and missing" in text
    assert reverse("sites:walk", args=[visit.pk]) in text
    assert "No ground is measured yet." in text


def test_weak_corners_and_the_tape_that_would_help_are_named(clerk_client, measured):
    """Corner (0, 12) sees the marks under 28.3°, below the usual 30°: common practice, no source."""
    text = page_of(clerk_client, measured)
    assert "The tapes to 4 meet at 28°" in text
    assert "One more tape would help most." in text
    assert "No tape checks another" in text
    assert "The wheel was not held against a tape" in text


@pytest.mark.parametrize(
    ("said_m2", "words"), [(280, "agree within a fifth"), (180, "more than a fifth apart")]
)
def test_the_measured_area_is_held_against_the_owners_own(clerk_client, measured, said_m2, words):
    SheetEntry.objects.create(visit=measured, field="area_said", text=f"{said_m2} m2", value_si=said_m2)
    text = page_of(clerk_client, measured)
    assert words in text
    assert re.search(r"Measured 28[78]\.\d", text)  # tapes read to a centimetre


def test_a_tape_that_changes_what_a_head_must_reach_is_listed_with_its_heads(clerk_client, visit):
    """Heads stand at 6 m squares and throw 6 m. A lawn of 24.10 m is as wide as still counts as reached,
    0.10 m beside the last arcs; 0.04 m more leave its edge dry.
    """
    measure(visit, CORNERS | {"2": (24.1, 0), "3": (24.1, 12)})
    make_plan(visit.site)
    text = page_of(clerk_client, visit, "leaving-fragile")
    assert "B from A</strong> may be ± 0.04 m off" in text
    assert "change their verdict" in text
    assert reverse("sites:survey", args=[visit.pk]) in text


def test_readings_are_named_in_the_site_s_units(us_site, parts_book):
    """37.85 L/min are 10 US gal/min, by 3.785 L a gallon (NIST SP 811, table B.8)."""
    names = ["pressure while 37.85 L/min ran at the tap", "tie 2 from A"]
    found = [Fragile(f"supply.{n}", n, 7.0, "kPa", (), "", 0, 0, 0, "It lies 3 m off.") for n in names]
    first, second = fragile_rows(found, make_visit(us_site))
    assert first.name == "Pressure while 10.00 US gal/min ran at the tap"
    assert first.what == ("It lies 9.8 ft off.",)
    assert second.name == "Tie 2 from A"


def test_a_reading_is_reduced_once_for_each_way_it_may_err(clerk, measured, monkeypatch):
    """Nine readings, up and down, and the ground as it is: before it is varied, and on the page."""
    ground, calls = ground_of_visit(measured, clerk), []
    monkeypatch.setattr(varied_ground, "reduce_plane", lambda one: calls.append(1) or reduce_plane(one))
    fragile_readings(ground)
    assert len(calls) == 2 * 9 + 1


def test_the_fragile_list_asks_the_database_as_often_for_many_readings(
    clerk, visit, parts_book, django_assert_num_queries
):
    measure(visit, CORNERS)
    make_plan(visit.site)
    ground = ground_of_visit(visit, clerk)
    with django_assert_num_queries(2):  # the parts book's stamp, and the company's limits
        fragile_readings(ground)


def test_a_site_without_any_reading_has_nothing_fragile(clerk_client, visit):
    assert "no reading to vary yet" in page_of(clerk_client, visit, "leaving-fragile")


def test_without_time_only_what_moves_is_told(clerk_client, measured, monkeypatch):
    monkeypatch.setattr("sites.leaving.MOST_SECONDS", -1.0)
    make_plan(measured.site)
    text = page_of(clerk_client, measured, "leaving-fragile")
    assert "There was time to check what comes of 0 of" in text
    assert "verdict" not in text


@pytest.mark.parametrize("name", ["leaving", "leaving-fragile"])
def test_only_the_office_sees_it(client, installer_client, clerk_client, visit, name):
    url = reverse(f"sites:{name}", args=[visit.pk])
    assert client.get(url).status_code == 302
    assert installer_client.get(url).status_code in (403, 404)
    assert clerk_client.post(url).status_code == 405
    assert clerk_client.get(reverse(f"sites:{name}", args=[visit.pk + 99])).status_code == 404
