"""The garden in US units against what the trade says of heads whose throw varies with bearing.

All of it is common practice, no source: 40 to 80 psi at the inlet; a radius of about 25 ft at 40,
30 ft at 60 and 35 ft at 80 psi; at most 60 ft of cable from head to head along the trench, the
rise to each head included; a trench 12 to 13 in deep; services marked 3 to 4 days ahead; digging
by hand where something lies shallower than the trench.
"""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from design.check import check
from design.loading import load_plan
from hydraulics.catalogue import Catalogue, HeadPart
from hydraulics.heads import throw_at
from hydraulics.limits import DEFAULT_LIMITS
from hydraulics.units import from_si, to_si

DEMO = Path(__file__).resolve().parents[2] / "demo"
DEPTH_M = to_si(12.5, "length", "in")


def read(name: str):
    return json.loads((DEMO / name).read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def parts():
    return Catalogue.from_dicts(row["data"] for row in read("price_book.json")["parts"])


@pytest.fixture(scope="module")
def plan():
    return load_plan(read("plans/ferry-lane.json"))


@pytest.fixture(scope="module")
def report(plan, parts):
    return check(plan, parts, replace(DEFAULT_LIMITS, main_depth_m=DEPTH_M, lateral_depth_m=DEPTH_M))


def heads_of(report):
    return [head for case in report.cases for head in case.heads]


def test_every_head_gets_40_to_80_psi_and_throws_25_to_35_ft(report):
    assert heads_of(report)
    for head in heads_of(report):
        assert 40 <= from_si(head.pressure_kpa, "pressure", "psi") <= 80
        assert 25 <= from_si(head.throw_m, "length", "ft") <= 35


@pytest.mark.parametrize(("psi", "radius_ft"), [(40, 25), (60, 30), (80, 35)])
def test_the_throw_is_a_radius_and_follows_the_rows(report, parts, psi, radius_ft):
    part = parts.need(heads_of(report)[0].part, HeadPart)
    throw = throw_at(part, to_si(psi, "pressure", "psi"))
    assert not throw.clamped
    assert from_si(throw.throw_m, "length", "ft") == pytest.approx(radius_ft, rel=0.01)
    assert from_si(throw.throw_m, "length", "ft") == pytest.approx(25 * (psi / 40) ** 0.5, rel=0.025)


def test_each_cable_from_head_to_head_keeps_within_60_ft(report):
    limit_m = to_si(60, "length", "ft")
    assert report.cables
    for cable in report.cables:
        assert cable.rise_m > 0
        assert cable.trench_m + cable.rise_m <= limit_m
        assert cable.limit_m == pytest.approx(limit_m, abs=0.01)


def test_a_company_that_digs_12_to_13_in_deep_gets_that_trench(report):
    depths = {from_si(stretch.depth_m, "length", "in") for stretch in report.trench if stretch.pipes}
    machine = [stretch for stretch in report.trench if stretch.method == "machine" and stretch.pipes]
    assert machine
    assert any(12 <= depth <= 13 for depth in depths)
    assert all(12 <= from_si(stretch.depth_m, "length", "in") <= 13 for stretch in machine)


def test_what_lies_shallower_than_the_trench_is_passed_by_hand(plan, report):
    shallow = [service for service in plan.ground.services if (service.depth_m or 9) < DEPTH_M]
    assert shallow
    for service in shallow:
        named = [stretch for stretch in report.trench if (service.label or service.id) in stretch.why]
        assert named
        assert all(stretch.method in ("hand", "bore") for stretch in named)


def test_the_demo_company_asks_for_services_three_to_four_days_ahead():
    assert read("company.json")["company"]["locate_working_days"] in (3, 4)
