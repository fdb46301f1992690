"""Cables along the trench from device to device. Rules: common practice, no source."""

import pytest

from design.check import check
from hydraulics.catalogue import Catalogue
from hydraulics.findings import Severity
from hydraulics.limits import DEFAULT_LIMITS, Limits
from tests.design.plans import CATALOGUE, PARTS, make_plan

M_PER_FT = 0.3048


def two_heads(apart_m, part="link-50", **cable):
    """Two heads with their own valve on a main that makes a detour, and a cable between them."""
    return {
        "nodes": [
            {"id": "S", "kind": "supply", "at": [0, -2]},
            {"id": "H1", "kind": "head", "at": [0, 0], "part": "scan-10"},
            {"id": "H2", "kind": "head", "at": [apart_m, 0], "part": "scan-10"},
        ],
        "pipes": [
            {"id": "P1", "from": "S", "to": "H1", "part": "pvc-25"},
            {"id": "P2", "from": "S", "to": "H2", "via": [[apart_m, -2]], "part": "pvc-25"},
        ],
        "cables": [{"id": "K1", "from": "H1", "to": "H2", "part": part, **cable}],
    }


def measured(layout, limits=DEFAULT_LIMITS, parts=CATALOGUE, **ground):
    return check(make_plan(layout=layout, ground=ground), parts, limits, with_coverage=False)


def codes(report):
    return {f.code: f for f in report.findings}


def test_an_undrawn_cable_follows_the_trench():
    (cable,) = measured(two_heads(10)).cables
    assert cable.path == ((0, 0), (0, -2), (10, -2), (10, 0))
    assert cable.trench_m == pytest.approx(14)
    assert cable.rise_m == pytest.approx(2 * 0.45)
    assert cable.length_m == pytest.approx(14 + 0.9 + 1.5)


def test_it_lies_in_the_trench_that_is_there():
    report = measured(two_heads(10))
    assert sum(stretch.length_m for stretch in report.trench) == pytest.approx(14)
    assert all("K1" in stretch.cables for stretch in report.trench)


def test_a_drawn_cable_runs_as_drawn_and_digs_where_no_pipe_lies():
    report = measured(two_heads(10, via=[[5, 1]]))
    (cable,) = report.cables
    assert cable.trench_m == pytest.approx(2 * 26**0.5)
    own = [stretch for stretch in report.trench if stretch.role == "cable"]
    assert sum(stretch.length_m for stretch in own) == pytest.approx(2 * 26**0.5)
    assert {stretch.depth_m for stretch in own} == {0.30}


def test_sixty_feet_from_head_to_head_counts_the_rise_to_each():
    """At most 60 ft along the trench with the rise to each head: common practice, no source.

    Trench 12 in deep: 58 ft of trench and 2 ft of rise just fit, 59 ft do not.
    """
    link = PARTS[10] | {"code": "link-60ft", "limit_m": 60 * M_PER_FT}
    parts = Catalogue.from_dicts([*PARTS, link])
    limits = Limits(main_depth_m=M_PER_FT, cable_slack_m=0.0)
    fits = measured(two_heads(58 * M_PER_FT - 4, part="link-60ft"), limits, parts)
    assert fits.cables[0].length_m == pytest.approx(60 * M_PER_FT, abs=0.001)
    assert codes(fits)["cable.length.over"].severity == Severity.WARN
    long = measured(two_heads(59 * M_PER_FT - 4, part="link-60ft"), limits, parts)
    assert codes(long)["cable.length.over"].severity == Severity.STOP


def test_a_device_beside_the_trench_gets_its_own_to_the_nearest_point():
    layout = two_heads(10)
    layout["nodes"].append({"id": "C", "kind": "controller", "at": [4, -5], "part": "controller-8"})
    layout["cables"] = [{"id": "K1", "from": "C", "to": "H1", "part": "cable-5"}]
    report = measured(layout)
    (cable,) = report.cables
    assert cable.path == ((4, -5), (4, -2), (0, -2), (0, 0))
    assert codes(report)["cable.trench.own"].measured == pytest.approx(3)
    own = [stretch for stretch in report.trench if stretch.role == "cable"]
    assert [round(stretch.length_m, 3) for stretch in own] == [3.0]


def test_a_device_that_stands_on_a_trench_needs_none_of_its_own():
    layout = two_heads(10)
    layout["nodes"].append({"id": "C", "kind": "controller", "at": [4, -2], "part": "controller-8"})
    layout["cables"] = [{"id": "K1", "from": "C", "to": "H1", "part": "cable-5"}]
    report = measured(layout)
    assert report.cables[0].path == ((4, -2), (0, -2), (0, 0))
    assert not {"cable.trench.own", "cable.trench.none"} & set(codes(report))
    assert sum(stretch.length_m for stretch in report.trench) == pytest.approx(14)


def test_inside_a_building_no_trench_is_counted():
    layout = two_heads(10)
    layout["nodes"].append({"id": "C", "kind": "controller", "at": [4, -7], "part": "controller-8"})
    layout["cables"] = [{"id": "K1", "from": "C", "to": "H1", "via": [[4, -2], [0, -2]], "part": "cable-5"}]
    house = {"id": "house", "kind": "building", "outline": [[0, -9], [8, -9], [8, -5], [0, -5]]}
    report = measured(layout, surfaces=[house])
    own = [stretch for stretch in report.trench if stretch.role == "cable" and stretch.cables == ("K1",)]
    assert sum(stretch.length_m for stretch in own) == pytest.approx(3)
    assert codes(report)["cable.in_building"].severity == Severity.NOTE
    assert "trench.blocked" not in codes(report)


def test_two_devices_without_any_trench_get_a_straight_one_and_a_warning():
    layout = {
        "nodes": [
            {"id": "S", "kind": "supply", "at": [0, 0]},
            {"id": "C1", "kind": "controller", "at": [3, 0], "part": "controller-8"},
            {"id": "C2", "kind": "controller", "at": [3, 4], "part": "controller-8"},
        ],
        "cables": [{"id": "K1", "from": "C1", "to": "C2", "part": "cable-5"}],
    }
    report = measured(layout)
    assert report.cables[0].trench_m == pytest.approx(4)
    assert codes(report)["cable.trench.none"].severity == Severity.WARN


def test_a_zone_without_cable_and_a_plan_without_controller_are_told():
    assert "control.controller.missing" in codes(measured(two_heads(10)))
    layout = two_heads(10)
    layout["nodes"].append({"id": "C", "kind": "controller", "at": [0, -2], "part": "controller-8"})
    assert codes(measured(layout))["control.cable.missing"].where == ("H1", "H2")
    layout["cables"].append({"id": "K2", "from": "C", "to": "H1", "part": "cable-5"})
    assert "control.cable.missing" not in codes(measured(layout))


def test_more_zones_than_stations_stop():
    small = Catalogue.from_dicts([p | {"stations": 1} if p["code"] == "controller-8" else p for p in PARTS])
    layout = two_heads(10)
    layout["nodes"].append({"id": "C", "kind": "controller", "at": [0, -2], "part": "controller-8"})
    layout["cables"].append({"id": "K2", "from": "C", "to": "H1", "part": "cable-5"})
    found = codes(measured(layout, parts=small))["controller.stations.few"]
    assert (found.measured, found.limit, found.severity) == (2, 1, Severity.STOP)


def test_voltage_falls_along_the_cables_of_the_run():
    """IEC 60228: 0.75 mm2 has at most 24.5 ohm/km; 0.25 A over 400 m and back lose 4.9 V of 24 V."""
    layout = {
        "nodes": [
            {"id": "S", "kind": "supply", "at": [0, 0]},
            {"id": "V1", "kind": "valve", "at": [398, 0], "part": "valve-25"},
            {"id": "H1", "kind": "head", "at": [399, 0], "part": "rotary-6"},
            {"id": "C", "kind": "controller", "at": [0, 0], "part": "controller-8"},
        ],
        "pipes": [
            {"id": "P1", "from": "S", "to": "V1", "part": "pvc-25"},
            {"id": "P2", "from": "V1", "to": "H1", "part": "pvc-25"},
        ],
        "cables": [{"id": "K1", "from": "C", "to": "V1", "part": "cable-5"}],
    }
    cold = Limits(cable_slack_m=1.0, main_depth_m=0.0, conductor_temperature_c=20.0)
    found = codes(measured(layout, cold))["valve.voltage.low"]
    assert found.measured == pytest.approx(24 - 2 * 0.4 * 24.5 * 0.25)
    assert found.severity == Severity.STOP
    # IEC 60028: copper gains 0.393 % per kelvin; buried cable is taken at 30 °C unless a limit says else
    usual = codes(measured(layout, Limits(cable_slack_m=1.0, main_depth_m=0.0)))["valve.voltage.low"]
    assert 24 - usual.measured == pytest.approx(1.0393 * (24 - found.measured))
