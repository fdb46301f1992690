"""Networks on which whole Newton steps circle, so that the cut steps have to find the balance."""

import pytest

from hydraulics.friction import hazen_williams_kpa
from hydraulics.indexed import IndexedNetwork
from hydraulics.linear import DenseBlocks
from hydraulics.livepart import live_part
from hydraulics.network import CurveLink, Emitter, Network, Node, PipeLink, Source
from hydraulics.newton import balance
from hydraulics.solver import ALL_OPEN, solve, solve_cases
from hydraulics.stack import Stack

# a valve whose loss rises steeply and then hardly, beside two pipes
CIRCLING = Network(
    (Node("a"), Node("b", -2.57)),
    (Source("s", "a", 542.18, 0.02),),
    (
        CurveLink("v", "a", "b", ((12.492, 39.664), (46.386, 51.459))),
        PipeLink("p", "a", "b", 25.828, 40.8),
        PipeLink("q", "b", "a", 30.858, 26.0),
    ),
    (Emitter("e", "b", 1.18063, 0.42),),
)


def test_whole_steps_circle_here():
    stack = Stack(net := IndexedNetwork(CIRCLING), [live_part(net, frozenset())])
    assert not balance(stack, DenseBlocks(stack)).settled


def test_cut_steps_find_the_balance():
    found = solve(CIRCLING)
    drop = found.node_kpa["a"] + 2.57 * 9.80665 - found.node_kpa["b"]
    assert found.link_loss_kpa["v"] == pytest.approx(drop, rel=1e-6)
    assert hazen_williams_kpa(found.link_lpm["p"], 25.828, 40.8, 150) == pytest.approx(drop, rel=1e-6)
    assert found.emitter_lpm["e"] == pytest.approx(1.18063 * found.node_kpa["b"] ** 0.42, rel=1e-6)
    into_b = found.link_lpm["v"] + found.link_lpm["p"] - found.link_lpm["q"]
    assert into_b == pytest.approx(found.emitter_lpm["e"], rel=1e-9)


def test_one_circling_case_does_not_spoil_the_others():
    one, two = solve_cases(CIRCLING, (ALL_OPEN, ALL_OPEN))
    assert one == two
