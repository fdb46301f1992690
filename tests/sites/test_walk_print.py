"""The sheet on paper: empty boxes with both units, what is known printed, cautions, squared paper."""

from datetime import date

import pytest
from django.urls import reverse

from sites.readings import VisitData
from sites.services import save_visit
from sites.walk_round.line import Place
from sites.walk_round.lines import LINES
from tests.sites.test_walk_page import keep


@pytest.fixture
def visit(site, clerk):
    return save_visit(VisitData(date(2026, 5, 4), "Ola", weather="dry"), site=site, by=clerk)


def printed(client, visit):
    return client.get(reverse("sites:walk-print", args=[visit.pk])).content.decode()


def test_an_empty_sheet_has_every_line_in_walking_order(site, clerk_client):
    text = clerk_client.get(reverse("sites:walk-print-empty", args=[site.pk])).content.decode()
    text = text.replace("&#x27;", "'")
    order = [text.index(line.question) for line in LINES]
    assert order == sorted(order)
    assert [text.index(f"· {place.value}") for place in Place]
    assert "With a well:" in text
    assert "☒" not in text


def test_boxes_name_both_units(site, clerk_client):
    text = clerk_client.get(reverse("sites:walk-print-empty", args=[site.pk])).content.decode()
    for pair in (("☐ m", "☐ ft"), ("☐ bar", "☐ psi"), ("☐ m²", "☐ ft²"), ("☐ mm", "☐ in")):
        assert all(box in text for box in pair)


def test_what_is_known_is_printed_and_ticked(visit, clerk_client):
    keep(clerk_client, visit, "gate", answer="0.9", confidence="estimated")
    keep(clerk_client, visit, "meter_still", answer="yes")
    keep(clerk_client, visit, "private_buried", answer="", none="on")
    text = printed(clerk_client, visit)
    assert "0.9 m" in text
    assert "estimated" in text
    assert "☒ yes" in text
    assert "☒ Nothing known: I asked" in text
    assert "dry" in text


def test_what_is_known_not_to_matter_is_left_out(visit, clerk_client):
    assert "With a well:" in printed(clerk_client, visit)
    keep(clerk_client, visit, "water_source", answer="mains")
    assert "With a well:" not in printed(clerk_client, visit)


def test_cautions_north_and_scale_stand_on_it(visit, clerk_client):
    text = printed(clerk_client, visit)
    for words in ("No digging on a visit", "licensed plumber", "1 m ☐ 5 ft", "north arrow"):
        assert words in text


def test_what_was_typed_is_escaped(visit, clerk_client):
    keep(clerk_client, visit, "decides", answer="<b>Ada</b>")
    assert "<b>Ada" not in printed(clerk_client, visit)
