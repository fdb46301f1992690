"""Pressure regulators, check valves and outlets by exponent or rows."""

import numpy as np
import pytest

from hydraulics.errors import NetworkError
from hydraulics.inp import to_inp
from hydraulics.network import (
    Case,
    CurveLink,
    Emitter,
    Network,
    Node,
    PipeLink,
    PowerLink,
    PressureRegulator,
    Source,
)
from hydraulics.solver import ALL_OPEN, solve
from hydraulics.units import KPA_PER_M
from hydraulics.whatif import Variants, solve_variants
from tests.hydraulics.random_networks import random_network


def regulated_line(static_kpa=500.0, setting_kpa=250.0, coefficient=1.0, levels=(0.0, 0.0)):
    """S - pipe - a - regulator - b - pipe - c with an outlet."""
    return Network(
        (Node("S"), Node("a", levels[0]), Node("b", levels[0]), Node("c", levels[1])),
        (Source("main", "S", static_kpa),),
        (
            PipeLink("p", "S", "a", 20, 26.0), PressureRegulator("r", "a", "b", setting_kpa),
            PipeLink("q", "b", "c", 20, 26.0),
        ),
        (Emitter("e", "c", coefficient),),
    )  # fmt: skip


def test_an_active_regulator_holds_its_setting_whatever_comes():
    for static in (300, 500, 900):
        found = solve(regulated_line(static))
        assert found.regulators == {"r": "active"}
        assert found.node_kpa["b"] == pytest.approx(250, abs=1e-3)
        assert found.link_loss_kpa["r"] == pytest.approx(found.node_kpa["a"] - 250, abs=1e-3)


def test_an_open_regulator_takes_nothing():
    found = solve(regulated_line(200))
    assert found.regulators == {"r": "open"}
    assert found.node_kpa["b"] == pytest.approx(found.node_kpa["a"], abs=1e-3)
    without = regulated_line(200)
    links = (without.links[0], PipeLink("r", "a", "b", 1e-6, 26.0), without.links[2])
    same = solve(Network(without.nodes, without.sources, links, without.emitters))
    assert found.emitter_lpm["e"] == pytest.approx(same.emitter_lpm["e"], rel=1e-6)


def test_a_closed_regulator_lets_nothing_back():
    line = regulated_line(200)
    both = Network(
        (*line.nodes, Node("T")), (*line.sources, Source("other", "T", 400)),
        (*line.links, PipeLink("t", "T", "c", 5, 26.0)), line.emitters,
    )  # fmt: skip
    found = solve(both)
    assert found.regulators == {"r": "closed"}
    assert found.link_lpm["r"] == 0.0
    assert found.source_lpm["main"] == pytest.approx(0.0, abs=1e-6)
    assert found.node_kpa["c"] > 200


def test_the_setting_counts_at_the_level_of_the_regulator():
    found = solve(regulated_line(600, 250, levels=(3.0, -2.0)))
    assert found.node_kpa["b"] == pytest.approx(250, abs=1e-3)
    low = found.node_kpa["c"] + found.link_loss_kpa["q"]
    assert low == pytest.approx(250 + 5 * KPA_PER_M, abs=1e-3)


def test_behind_an_idle_regulator_stands_its_setting():
    found = solve(regulated_line(500), Case("shut", frozenset({"e"})))
    assert found.node_kpa == pytest.approx({"S": 500, "a": 500, "b": 250, "c": 250})
    assert found.regulators == {"r": "active"}


def test_two_regulators_in_a_row_hold_the_lower_setting():
    line = regulated_line()
    links = (*line.links[:2], PressureRegulator("r2", "b", "d", 180.0), PipeLink("q", "d", "c", 20, 26.0))
    found = solve(Network((*line.nodes, Node("d")), line.sources, links, line.emitters))
    assert (found.node_kpa["b"], found.node_kpa["d"]) == pytest.approx((250, 180), abs=1e-3)


@pytest.mark.parametrize("setting", [0.0, -5.0, float("nan")])
def test_a_regulator_needs_a_pressure_to_hold(setting):
    with pytest.raises(NetworkError, match="“r” needs a pressure"):
        solve(regulated_line(setting_kpa=setting))


def test_many_runs_behind_a_regulator_are_each_solved_alone():
    line = regulated_line(levels=(1.0, 0.0))
    rng = np.random.default_rng(4)
    variants = Variants(
        static_kpa=rng.uniform(-350, 100, 30), raise_m=rng.uniform(-2, 2, (30, 4)),
        emitter_factor=rng.uniform(0.5, 2, (30, 1)),
    )  # fmt: skip
    results = solve_variants(line, ALL_OPEN, variants)
    states = set()
    for run in range(30):
        nodes = tuple(Node(n.id, n.elevation_m + variants.raise_m[run, i]) for i, n in enumerate(line.nodes))
        source = Source("main", "S", 500 + variants.static_kpa[run])
        outlet = Emitter("e", "c", variants.emitter_factor[run, 0])
        alone = solve(Network(nodes, (source,), line.links, (outlet,)))
        states.update(alone.regulators.values())
        by_name = dict(zip(results.nodes, results.node_kpa[run], strict=True))
        assert by_name == pytest.approx(alone.node_kpa, abs=1e-3)
    assert states == {"active", "open"}


LINKS = [
    PipeLink("v", "a", "b", 5, 26.0, one_way=True),
    PowerLink("v", "a", "b", 0.01, 2.0, one_way=True),
    CurveLink("v", "a", "b", ((20, 10), (40, 30)), one_way=True),
]


@pytest.mark.parametrize("link", LINKS, ids=["pipe", "power", "curve"])
def test_a_check_valve_passes_water_one_way_only(link):
    def between(left, right):
        return solve(
            Network(
                (Node("a"), Node("b"), Node("L"), Node("R")),
                (Source("l", "L", left), Source("r", "R", right)),
                (PipeLink("pl", "L", "a", 5, 26.0), link, PipeLink("pr", "b", "R", 5, 26.0)),
            )
        )

    assert between(300, 250).link_lpm["v"] > 10
    shut = between(250, 300)
    assert shut.link_lpm["v"] == 0.0
    assert (shut.node_kpa["a"], shut.node_kpa["b"]) == pytest.approx((250, 300), abs=1e-3)


def test_a_check_valve_the_wrong_way_round_leaves_its_zone_dry():
    network = Network(
        (Node("S"), Node("a"), Node("b")), (Source("s", "S", 300),),
        (PipeLink("p", "S", "a", 5, 26.0), PipeLink("v", "b", "a", 5, 26.0, one_way=True)),
        (Emitter("e", "b", 1.0), Emitter("f", "a", 1.0)),
    )  # fmt: skip
    found = solve(network)
    assert found.emitter_lpm["e"] == pytest.approx(0.0, abs=1e-3)
    assert found.emitter_lpm["f"] > 10


@pytest.mark.parametrize("exponent", [0.0, 0.02, 0.05, 0.3, 0.5, 1.0, 1.3, 2.0])
def test_outlets_of_any_exponent(exponent):
    outlet = Emitter("e", "a", 12 / 250**exponent, exponent)
    network = Network(
        (Node("S"), Node("a")), (Source("s", "S", 300, 0.1),), (PipeLink("p", "S", "a", 30, 20.4),), (outlet,)
    )
    found = solve(network)
    by_law = outlet.coefficient * found.node_kpa["a"] ** exponent
    assert found.emitter_lpm["e"] == pytest.approx(by_law, rel=5e-4)


def test_an_outlet_by_rows_is_straight_between_them_and_held_by_its_regulator():
    rows = ((8.0, 100.0), (10.0, 200.0), (11.0, 300.0))
    for static, regulated, flow in ((150, None, 9.0), (50, None, 4.0), (400, None, 12.0), (400, 250.0, 10.5)):
        outlet = Emitter("e", "S", 0.7, 0.5, regulated, rows)
        found = solve(Network((Node("S"),), (Source("s", "S", static),), (), (outlet,)))
        assert found.emitter_lpm["e"] == pytest.approx(flow)


@pytest.mark.parametrize("rows", [((10.0, 100.0), (9.0, 200.0)), ((10.0, float("inf")),), ((5.0, 0.0),)])
def test_rows_of_an_outlet_must_rise(rows):
    outlet = Emitter("e", "S", 0.7, 0.5, None, rows)
    with pytest.raises(NetworkError, match="rows of “e” must rise"):
        solve(Network((Node("S"),), (Source("s", "S", 100),), (), (outlet,)))


def test_a_regulator_is_written_for_epanet_between_two_stubs():
    text = to_inp(regulated_line()).text
    assert "r r~in r~held 25 PRV 25.4" in text


def test_random_networks_with_everything_settle():
    """Regulators on branches always settle; where a loop passes one by, hardly any end in an error."""
    for seed in range(60):
        network = random_network(seed, loops=2, regulators=0)
        assert solve(network).mass_error_lpm < 1e-3
        regulated = solve(random_network(seed, loops=0, regulators=2))
        assert set(regulated.regulators.values()) <= {"active", "open", "closed"}
