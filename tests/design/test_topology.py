"""Zones, roles, loops and cases come from what is connected to what."""

import pytest

from design.document import Level
from design.levels import Levels
from design.loading import load_plan
from design.part_rules import own_valve_heads
from design.topology import build_topology, cases_of, count_loops, path_between
from tests.design.book import BOOK, ROOT, site_plan
from tests.design.plans import CATALOGUE, make_plan, one_zone


def test_a_zone_is_what_one_valve_opens():
    topology = build_topology(site_plan("s1"))
    assert {name: len(zone.heads) for name, zone in topology.zones.items()} == {"V1": 10, "V2": 5}
    assert [pipe for pipe, role in topology.roles.items() if role == "main"] == ["M1", "M2", "M3"]
    assert count_loops(topology) == 0


def test_a_looped_main_has_one_loop_and_its_zones():
    plan = load_plan((ROOT / "demo/plans/quince-house.json").read_bytes())
    topology = build_topology(plan, own_valve_heads(plan, BOOK))
    assert count_loops(topology) == 1
    assert set(topology.zones) == {"V1", "V2", "V3", "V4", "V5", "V6"}


def looped_own_valves():
    """Three heads with their own valve on a looped main."""
    heads = [("H1", [10, 0]), ("H2", [10, 10]), ("H3", [0, 10])]
    return {
        "nodes": [
            {"id": "S", "kind": "supply", "at": [0, 0]},
            *({"id": name, "kind": "head", "at": at, "part": "scan-10"} for name, at in heads),
        ],
        "pipes": [
            {"id": "P1", "from": "S", "to": "H1", "part": "pvc-25"},
            {"id": "P2", "from": "H1", "to": "H2", "part": "pvc-25"},
            {"id": "P3", "from": "H2", "to": "H3", "part": "pvc-25"},
            {"id": "P4", "from": "H3", "to": "S", "part": "pvc-25"},
        ],
    }


def test_heads_with_their_own_valve_are_zones_of_one_on_a_looped_main():
    plan = make_plan(layout=looped_own_valves())
    topology = build_topology(plan, own_valve_heads(plan, CATALOGUE))
    assert {name: zone.heads for name, zone in topology.zones.items()} == {
        "H1": ("H1",),
        "H2": ("H2",),
        "H3": ("H3",),
    }
    assert set(topology.roles.values()) == {"main"}
    assert count_loops(topology) == 1
    assert path_between(topology, "S", "H3") == ("S", "H3")


def test_a_plain_head_on_the_main_belongs_to_no_zone_and_stops():
    from design.check import check

    layout = one_zone(
        nodes=[{"id": "H2", "kind": "head", "at": [0, 3], "part": "rotary-6"}],
        pipes=[{"id": "P3", "from": "S", "to": "H2", "part": "pvc-25"}],
    )
    report = check(make_plan(layout=layout), CATALOGUE, with_coverage=False)
    assert ("head.valve.missing", ("H2",)) in [(f.code, f.where) for f in report.stops]
    assert [head.id for head in report.cases[0].heads] == ["H1"]


def test_with_no_cases_given_each_zone_runs_alone():
    plan = make_plan(layout=looped_own_valves())
    topology = build_topology(plan, own_valve_heads(plan, CATALOGUE))
    assert [(case.label, case.open) for case in cases_of(plan, topology)] == [
        ("H1", ["H1"]),
        ("H2", ["H2"]),
        ("H3", ["H3"]),
    ]


def test_zones_of_one_case_run_together():
    from design.check import check

    alone = check(make_plan(layout=looped_own_valves()), CATALOGUE, with_coverage=False)
    layout = looped_own_valves() | {"cases": [{"label": "Both", "open": ["H1", "H3"]}]}
    both = check(make_plan(layout=layout), CATALOGUE, with_coverage=False)
    assert both.cases[0].flow_lpm > 1.5 * alone.cases[0].flow_lpm
    assert both.cases[0].worst_head_kpa < alone.cases[0].worst_head_kpa
    assert "zone.case.none" in {f.code for f in both.findings}


@pytest.mark.parametrize(
    ("point", "height"),
    [((5, 5), 0.5), ((0, 0), 0.0), ((10, 3), 1.0), ((-5, 5), 0.0), ((30, 5), 1.0), ((2.5, 9), 0.25)],
)
def test_levels_are_linear_inside_and_the_nearest_outside(point, height):
    corners = [((0, 0), 0), ((10, 0), 1), ((10, 10), 1), ((0, 10), 0)]
    levels = Levels([Level(at=at, z_m=z) for at, z in corners])
    assert levels.at(point) == pytest.approx(height)


def test_levels_of_none_and_of_a_line():
    assert Levels([]).at((3, 3)) == 0
    line = Levels([Level(at=(x, 0), z_m=x) for x in (0, 1, 2)])
    assert line.at((1.9, 5)) == 2


def test_a_case_names_the_valve_and_not_a_head_behind_it():
    from design.check import check
    from design.problems import PlanInvalid

    layout = one_zone(cases=[{"label": "Front", "open": ["H1"]}])
    layout["nodes"][2]["part"] = "scan-10"
    with pytest.raises(PlanInvalid, match="H1 lies behind V1; name that valve"):
        check(make_plan(layout=layout), CATALOGUE)
