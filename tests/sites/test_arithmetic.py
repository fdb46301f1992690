"""The arithmetic of a visit, worked out while it is typed."""

import re
from datetime import date

import pytest
from django.urls import reverse

from hydraulics.units import parse_quantity
from sites.arithmetic import bucket_sentence, work_out
from sites.readings import Bucket, Gauge, VisitData
from sites.templatetags.measures import supply_law
from tests.sites.makers import visit_post


def bucket(volume, fill, tap=""):
    return Bucket(parse_quantity(volume, "volume", "L"), parse_quantity(fill, "time", "s"), tap)


def gauge(flow, residual):
    return Gauge(parse_quantity(flow, "flow", "L/min"), parse_quantity(residual, "pressure", "bar"))


def visit(**fields):
    return VisitData(visited_on=date(2026, 5, 4), measured_by="Ola", **fields)


def static(text):
    return parse_quantity(text, "pressure", "bar")


def test_five_us_gallons_in_45_seconds():
    # common practice, no source: the least supply for heads that throw by bearing; the round
    # 8 US gal/min often said would fill the same bucket in 37.5 s
    said = bucket_sentence(bucket("5 gal", "45"), parse_quantity("8 gpm", "flow", "gpm"))
    assert "6.67 US gal/min (25.2 L/min)" in said
    assert "at 8.00 US gal/min the same bucket would take 37.5 s" in said


def test_twenty_litres_in_thirty_seconds():
    # trade facts, common practice, no source: Q = 60 V / t
    assert "is 40.0 L/min (10.57 US gal/min)" in bucket_sentence(bucket("20 L", "30"))


def test_runs_are_averaged_and_their_spread_told():
    # 20 L in 30 s and in 32 s: 40.0 and 37.5 L/min, mean 38.75, spread 2.5 / 38.75 = 6.5 %
    lines = work_out(visit(buckets=(bucket("20", "30"), bucket("20", "32"))), {}, "metric").supply
    assert "38.8 L/min" in lines[0]
    assert "spread 6.5%" in lines[0]


def test_the_curve_is_told_from_a_gauge_reading():
    # 4.5 bar static, 3.4 bar left at 40 L/min; at 20 L/min 1.1 · 0.5^1.852 = 0.3047 bar is lost
    data = visit(static=static("4.5 bar"), gauges=(gauge("40", "3.4"),))
    text = " ".join(work_out(data, {}, "metric").supply)
    assert "Measured" in text
    assert "4.20 bar (60.8 psi) at 20.0 L/min" in text
    assert "3.40 bar (49.3 psi) at 40.0 L/min" in text


def test_without_a_flowing_reading_it_is_provisional():
    assert "Provisional" in work_out(visit(static=static("4")), {}, "metric").supply[0]


def test_readings_that_contradict_say_so_and_do_not_break_it():
    data = visit(static=static("3 bar"), gauges=(gauge("40", "3.4"),))
    assert "No supply curve yet" in work_out(data, {}, "metric").supply[0]


@pytest.fixture
def address(us_site, parts_book):
    return reverse("sites:visit-arithmetic", args=[us_site.pk])


def test_the_endpoint_answers_with_the_outputs_of_the_form(owner_client, address):
    data = visit_post(**{"bucket-1-volume": "5", "bucket-1-fill": "45", "compare": "8", "static": "58"})
    page = owner_client.post(address, data).content.decode()
    assert "<html" not in page
    assert "5 gal in 45 s is 6.67 US gal/min (25.2 L/min)." in page
    assert 'id="worked-bucket-1"' in page
    assert "37.5 s" in page
    assert "Cautious" in page


@pytest.mark.parametrize(
    "fields",
    [
        {}, {"static": "NaN"}, {"static": "-4"}, {"bucket-0-volume": "0", "bucket-0-fill": "0"},
        {"bucket-0-volume": "5"}, {"bucket-TOTAL_FORMS": "many"}, {"bucket-TOTAL_FORMS": "9" * 30},
        {"gauge-0-flow": "0", "gauge-0-residual": "3"}, {"compare": "soon"}, {"visited_on": "never"},
        {"service_bore": "0"}, {"static": "0", "gauge-0-flow": "4", "gauge-0-residual": "0"},
        {"meter": "no-such-meter"}, {"height-0-place": "x" * 500},
    ],
)  # fmt: skip
def test_half_typed_and_wrong_figures_never_break_it(owner_client, address, fields):
    assert owner_client.post(address, visit_post(**fields)).status_code == 200


def test_it_takes_a_post_from_the_office_only(owner_client, installer_client, client, address):
    assert owner_client.get(address).status_code == 405
    assert installer_client.post(address, {}).status_code == 403
    assert client.post(address, {}).status_code == 302
    htmx = client.post(address, {}, headers={"HX-Request": "true"})
    assert (htmx.status_code, htmx["HX-Redirect"]) == (401, "/account/login/?next=/")


def test_the_law_of_the_supply_in_both_systems():
    """The same curve: 450 kPa less 0.11868 q^1.852 leaves 340 kPa (49.3 psi) at 40 L/min."""
    metric, us = supply_law(450.0, 0.11868, "metric"), supply_law(450.0, 0.11868, "us")
    assert "450 kPa − 0.11868" in metric
    static, loss = (float(x) for x in re.findall(r"= ([\d.]+) psi − ([\d.]+)", us)[0])
    assert static - loss * (40 / 3.785412) ** 1.852 == pytest.approx(340 / 6.894757, abs=0.05)
